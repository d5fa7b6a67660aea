import { type KeyboardEvent, useEffect, useRef } from "react";
import { useNames } from "../parts/names.tsx";
import { pictureWords } from "../words/site-picture.ts";
import { type Boxes, targetAt } from "./boxes.ts";
import { SIZES, textWidth } from "./geometry.ts";
import { drop, type Moving } from "./moving.ts";
import type { Box, Point } from "./shapes.ts";
import type { Target } from "./targets.ts";

/** Over the picture while something is moved: the places that take it, outlined and in words, and what is in the hand. */
export function MovingLayer({
  moving,
  targets,
  boxes,
  point,
}: {
  readonly moving: Moving;
  readonly targets: readonly Target[];
  readonly boxes: Boxes;
  readonly point: Point | null;
}) {
  const layer = useRef<SVGGElement>(null);
  const drawn = targets.flatMap((target) => {
    const [first, ...more] = boxes.get(target.id) ?? [];
    return first === undefined ? [] : [{ target, first, more }];
  });
  const over = point === null || moving.by === "keys" ? null : targetAt(targets, boxes, point);
  useEffect(() => {
    if (moving.by === "keys") layer.current?.querySelector<SVGElement>(".target")?.focus();
  }, [moving]);
  return (
    <g ref={layer} className="moving-layer">
      {drawn.map(({ target, first, more }, i) => (
        <TargetDrawing
          key={target.id}
          target={target}
          boxes={[first, ...more]}
          isOver={target.id === over?.id}
          isReached={i === 0}
        />
      ))}
      {moving.by === "hand" && moving.task === "connect" && point !== null && (
        <Thread from={boxes.get(moving.part)?.[0]} to={point} />
      )}
      {moving.by === "hand" && point !== null && <Ghost part={moving.part} point={point} isOver={over !== null} />}
    </g>
  );
}

const TAG_HEIGHT = 18;
/** The outline stands off what it outlines, px. */
const OUTSIDE = 3;

function TargetDrawing({
  target,
  boxes,
  isOver,
  isReached,
}: {
  readonly target: Target;
  readonly boxes: readonly Box[];
  readonly isOver: boolean;
  readonly isReached: boolean;
}) {
  const names = useNames();
  const say = { move: pictureWords.target.move, plug: pictureWords.target.plug, connect: pictureWords.connectTo };
  const [first] = boxes;
  const wide = textWidth(pictureWords.here[target.how], SIZES.sounding) + 12;
  // A can is too narrow for more than one word.
  const tag = wide > first.width ? pictureWords.here.narrow : pictureWords.here[target.how];
  const width = Math.min(wide, textWidth(tag, SIZES.sounding) + 12);
  const isFlat = first.height < 60;
  // On a line below the floor the words stand at its end, in a water at its foot.
  const x = isFlat ? first.x + first.width - width - 4 : first.x + (first.width - width) / 2;
  const y = isFlat ? first.y + (first.height - TAG_HEIGHT) / 2 : first.y + first.height - TAG_HEIGHT - 4;
  const press = (event: KeyboardEvent): void => {
    if (event.key !== "Enter" && event.key !== " ") {
      moveAmongTargets(event);
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    void drop(target);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no button elements
    <g
      role="button"
      tabIndex={isReached ? 0 : -1}
      className={isOver ? "target over" : "target"}
      data-target={target.id}
      aria-label={say[target.how](names.water(target.id) ?? target.id)}
      onClick={() => void drop(target)}
      onKeyDown={press}
    >
      {boxes.map((box) => (
        <rect
          key={`${box.x} ${box.y}`}
          className="ground"
          x={box.x - OUTSIDE}
          y={box.y - OUTSIDE}
          width={box.width + 2 * OUTSIDE}
          height={box.height + 2 * OUTSIDE}
        />
      ))}
      <rect className="tag" x={x} y={y} width={width} height={TAG_HEIGHT} />
      <text className="snd" x={x + width / 2} y={y + 13} textAnchor="middle">
        {tag}
      </text>
    </g>
  );
}

/** From the rim of a water to the hand that leads it to another. */
function Thread({ from, to }: { readonly from: Box | undefined; readonly to: Point }) {
  if (from === undefined) return null;
  return <path className="thread" d={`M${from.x + from.width} ${from.y + from.height / 2}L${to.x} ${to.y}`} />;
}

function Ghost({ part, point, isOver }: { readonly part: string; readonly point: Point; readonly isOver: boolean }) {
  const names = useNames();
  const name = names.water(part) ?? part;
  const width = textWidth(name) + 34;
  return (
    <g className="ghost" transform={`translate(${point.x} ${point.y})`}>
      <rect x="-11" y="-12" width={width} height="24" className={isOver ? "over" : undefined} />
      <path d="M0-6l5 6-5 6-5-6z" className="mark" />
      <text x="14" y="5" className="dev">
        {name}
      </text>
    </g>
  );
}

const STEPS: Readonly<Record<string, 1 | -1>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

function moveAmongTargets(event: KeyboardEvent): void {
  const step = STEPS[event.key];
  const layer = event.currentTarget.closest(".moving-layer");
  if (step === undefined || event.shiftKey || layer === null) return;
  const all = [...layer.querySelectorAll<SVGElement>(".target")];
  const at = all.indexOf(event.currentTarget as SVGElement);
  event.preventDefault();
  event.stopPropagation();
  all[(at + step + all.length) % all.length]?.focus();
}
