import { createContext, type KeyboardEvent, type MouseEvent, type ReactNode, useContext } from "react";
import { go, isPlainClick } from "../app/router.tsx";
import type { Box } from "./shapes.ts";

/** Which part is chosen, which one the tab key reaches, and where choosing leads. */
export interface Choosing {
  readonly chosen: string | null;
  readonly reached: string | null;
  addressOf(id: string): string;
}

export const ChoosingContext = createContext<Choosing>({ chosen: null, reached: null, addressOf: () => "" });

/** Least size of what can be pressed, px. */
const LEAST_TARGET = 24;

/** A part of the picture that can be chosen. The tab key reaches one of them; arrow keys go from each to the next. */
export function PartLink({
  id,
  name,
  box,
  children,
}: {
  readonly id: string;
  readonly name: string;
  readonly box: Box;
  readonly children: ReactNode;
}) {
  const { chosen, reached, addressOf } = useContext(ChoosingContext);
  const choose = (event: MouseEvent): void => {
    if (!isPlainClick(event)) return;
    event.preventDefault();
    go(addressOf(id), "replace");
  };
  const target = grown(box);
  const isChosen = id === chosen;
  return (
    <a
      href={addressOf(id)}
      className="part"
      data-part={id}
      aria-label={name}
      aria-current={isChosen || undefined}
      tabIndex={id === reached ? 0 : -1}
      onClick={choose}
    >
      {children}
      <rect className={isChosen ? "hit chosen" : "hit"} {...target} />
    </a>
  );
}

/** Grown to what a finger can press, and a little air around. */
function grown({ x, y, width, height }: Box): Box {
  const w = Math.max(LEAST_TARGET, width + 8);
  const h = Math.max(LEAST_TARGET, height + 8);
  return { x: x + width / 2 - w / 2, y: y + height / 2 - h / 2, width: w, height: h };
}

const STEPS: Readonly<Record<string, 1 | -1>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/** Moves among the parts of a picture by arrow keys: those over the floor, system by system, then those below it. */
export function moveAmongParts(event: KeyboardEvent<SVGSVGElement>): void {
  const step = STEPS[event.key];
  if (step === undefined || event.shiftKey) return;
  const picture = event.currentTarget;
  const parts = [
    ...picture.querySelectorAll<SVGAElement>(".storey a.part"),
    ...picture.querySelectorAll<SVGAElement>(".below a.part"),
  ];
  const at = parts.indexOf(document.activeElement as Element as SVGAElement);
  if (at < 0) return;
  event.preventDefault();
  parts[(at + step + parts.length) % parts.length].focus();
}
