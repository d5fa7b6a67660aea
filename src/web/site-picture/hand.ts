/** Taking a part of the picture by mouse, pen or finger: over its threshold, or after a long press, so that pages still scroll. */
import { type RefObject, useEffect, useRef } from "react";
import { type Boxes, targetAt } from "./boxes.ts";
import { cancelMove, drop, type Moving, movingNow, take } from "./moving.ts";
import type { Point } from "./shapes.ts";
import type { Target } from "./targets.ts";

type Held = Pick<Moving, "part" | "task" | "plugOnly">;

export interface HandWorld {
  readonly boxes: Boxes;
  targets(held: Held): readonly Target[];
  /** Follows the hand, in the measure of the picture. */
  follow(point: Point): void;
}

const THRESHOLD_PX = 6;
const LONG_PRESS_MS = 420;

export function useHand(
  picture: RefObject<SVGSVGElement | null>,
  ground: RefObject<SVGGElement | null>,
  world: HandWorld,
): void {
  const latest = useRef(world);
  useEffect(() => {
    latest.current = world;
  });
  useEffect(() => {
    const svg = picture.current;
    if (svg === null) return;
    const ended = new AbortController();
    const on = { signal: ended.signal };
    let holding = false;
    let pressed = false;
    svg.addEventListener(
      "pointerdown",
      (event) => {
        const held = heldAt(event.target);
        if (held === null || event.button !== 0 || !event.isPrimary || movingNow() !== null) return;
        if (latest.current.targets(held).length === 0) return;
        begin(event, held);
      },
      on,
    );
    // Links can be dragged, and a long press opens a menu: both would take the part out of the hand.
    svg.addEventListener("dragstart", (event) => event.preventDefault(), on);
    svg.addEventListener("contextmenu", (event) => pressed && event.preventDefault(), on);
    svg.addEventListener("touchmove", (event) => holding && event.preventDefault(), { ...on, passive: false });

    function begin(down: PointerEvent, held: Held): void {
      const isTouch = down.pointerType === "touch";
      const session = new AbortController();
      const during = { signal: AbortSignal.any([session.signal, ended.signal]) };
      pressed = isTouch;
      const timer = isTouch ? setTimeout(() => pick(down), LONG_PRESS_MS) : null;
      const end = (): void => {
        session.abort();
        holding = false;
        pressed = false;
        if (timer !== null) clearTimeout(timer);
      };
      const pick = (event: PointerEvent): void => {
        holding = true;
        take(held.part, held.task, held.plugOnly);
        latest.current.follow(pointIn(ground.current, event));
      };
      addEventListener(
        "pointermove",
        (event) => {
          if (event.pointerId !== down.pointerId) return;
          if (!holding) {
            if (Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) < THRESHOLD_PX) return;
            if (isTouch) return end(); // the page scrolls
            pick(event);
          }
          if (movingNow() === null) return end(); // Escape
          event.preventDefault();
          latest.current.follow(pointIn(ground.current, event));
        },
        during,
      );
      addEventListener(
        "pointerup",
        (event) => {
          if (event.pointerId !== down.pointerId) return;
          const wasHolding = holding;
          end();
          if (!wasHolding) return;
          swallowClick();
          if (movingNow() === null) return;
          const target = targetAt(latest.current.targets(held), latest.current.boxes, pointIn(ground.current, event));
          if (target === null) cancelMove();
          else void drop(target);
        },
        during,
      );
      addEventListener(
        "pointercancel",
        (event) => {
          if (event.pointerId !== down.pointerId) return;
          const wasHolding = holding;
          end();
          if (wasHolding) cancelMove();
        },
        during,
      );
    }
    return () => ended.abort();
  }, [picture, ground]);
}

function heldAt(element: EventTarget | null): Held | null {
  if (!(element instanceof Element)) return null;
  const plug = element.closest<SVGElement>("[data-plug]")?.dataset.plug;
  if (plug !== undefined) return { part: plug, task: "move", plugOnly: true };
  const connect = element.closest<SVGElement>("[data-connect]")?.dataset.connect;
  if (connect !== undefined) return { part: connect, task: "connect", plugOnly: false };
  const part = element.closest<SVGElement>("[data-part]")?.dataset.part;
  return part === undefined ? null : { part, task: "move", plugOnly: false };
}

function pointIn(ground: SVGGElement | null, { clientX, clientY }: PointerEvent): Point {
  const matrix = ground?.getScreenCTM()?.inverse();
  if (matrix === undefined) return { x: 0, y: 0 };
  const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(matrix);
  return { x, y };
}

/** Letting go of a part is no press of the link under it. */
function swallowClick(): void {
  const swallow = (event: MouseEvent): void => {
    event.preventDefault();
    event.stopPropagation();
  };
  addEventListener("click", swallow, { capture: true, once: true });
  setTimeout(() => removeEventListener("click", swallow, { capture: true }));
}
