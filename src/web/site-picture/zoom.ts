/** Nearness of the picture: by pinch, by wheel with the control key, by dragging the ground, by buttons and keys. */
import { select } from "d3-selection";
import { type D3ZoomEvent, type ZoomBehavior, zoom, zoomIdentity } from "d3-zoom";
import { type RefObject, useEffect, useMemo, useRef, useState } from "react";
import type { Box } from "./shapes.ts";

/** What buttons and keys do with the picture. */
export interface ZoomHandle {
  by(factor: number): void;
  whole(): void;
  /** Pans by shares of what is in view. */
  pan(right: number, down: number): void;
  /** Brings a place into view where it is not. */
  show(box: Box): void;
}

export interface Zoomed {
  readonly transform: string;
  readonly nearness: number;
  readonly handle: ZoomHandle;
}

const NEAREST = 6;
/** A pinch on a trackpad comes as a wheel of small steps, a mouse wheel as one of large ones. */
const PINCH_STEP = 30;

export function useZoom(picture: RefObject<SVGSVGElement | null>, width: number, height: number): Zoomed {
  const [view, setView] = useState(zoomIdentity);
  const behavior = useRef<ZoomBehavior<SVGSVGElement, unknown> | null>(null);
  useEffect(() => {
    const svg = picture.current;
    if (svg === null) return;
    const made = zoom<SVGSVGElement, unknown>()
      .scaleExtent([1, NEAREST])
      .filter((event: Event) => isMeant(event, svg))
      .wheelDelta(({ deltaY, deltaMode }: WheelEvent) => {
        const pinched = Math.abs(deltaY) < PINCH_STEP ? 10 : 1;
        return -deltaY * (deltaMode === 0 ? 0.002 : 0.05) * pinched;
      })
      .on("zoom", ({ transform }: D3ZoomEvent<SVGSVGElement, unknown>) => setView(transform));
    behavior.current = made;
    const selection = select(svg).call(made).on("dblclick.zoom", null);
    return () => {
      selection.on(".zoom", null);
      behavior.current = null;
    };
  }, [picture]);
  useEffect(() => {
    const svg = picture.current;
    if (svg === null || behavior.current === null || width === 0) return;
    behavior.current
      .extent([
        [0, 0],
        [width, height],
      ])
      .translateExtent([
        [0, 0],
        [width, height],
      ]);
    behavior.current.translateBy(select(svg), 0, 0);
  }, [picture, width, height]);
  const handle = useMemo<ZoomHandle>(() => handleFor(picture, behavior), [picture]);
  return { transform: view.k === 1 ? "" : view.toString(), nearness: view.k, handle };
}

/** The page scrolls under a plain wheel and one finger; parts are for taking, the ground for dragging. */
function isMeant(event: Event, svg: SVGSVGElement): boolean {
  const isNear = svg.dataset.near === "true";
  if (event instanceof WheelEvent) return event.ctrlKey || event.metaKey;
  const onGround = !(event.target instanceof Element && event.target.closest("[data-part],[data-plug],[role=button]"));
  if (typeof TouchEvent !== "undefined" && event instanceof TouchEvent)
    return event.touches.length > 1 || (isNear && onGround);
  return event instanceof MouseEvent && event.button === 0 && isNear && onGround;
}

function handleFor(
  picture: RefObject<SVGSVGElement | null>,
  behavior: RefObject<ZoomBehavior<SVGSVGElement, unknown> | null>,
): ZoomHandle {
  const withBoth = (act: (made: ZoomBehavior<SVGSVGElement, unknown>, svg: SVGSVGElement) => void): void => {
    if (behavior.current !== null && picture.current !== null) act(behavior.current, picture.current);
  };
  const nearness = (svg: SVGSVGElement): number => Number(svg.dataset.nearness ?? 1);
  return {
    by: (factor) => withBoth((made, svg) => made.scaleBy(select(svg), factor)),
    whole: () => withBoth((made, svg) => made.transform(select(svg), zoomIdentity)),
    pan: (right, down) =>
      withBoth((made, svg) => {
        const { width, height } = svg.viewBox.baseVal;
        made.translateBy(select(svg), (-right * width) / nearness(svg), (-down * height) / nearness(svg));
      }),
    show: (box) =>
      withBoth((made, svg) => {
        if (nearness(svg) > 1) made.translateTo(select(svg), box.x + box.width / 2, box.y + box.height / 2);
      }),
  };
}
