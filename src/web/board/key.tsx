import type { ReactNode } from "react";
import { words } from "../words.ts";

/** How to read a row: the same strokes as in the rows, each with its word. */
export function Key() {
  const { key } = words.board;
  return (
    <>
      <Entry word={key.nothing}>
        <path d="M1 7h20" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="0 4" strokeLinecap="round" />
      </Entry>
      <Entry word={key.unnoticed}>
        <rect x="1" y="2.5" width="20" height="9" fill="url(#p-fog)" stroke="var(--ink-2)" />
      </Entry>
      <Entry word={key.message}>
        <rect x="1" y="2.5" width="20" height="9" fill="none" stroke="var(--signal)" />
        <path d="M5 2.5v9M10 2.5v9M15 2.5v9M20 2.5v9" stroke="var(--signal)" strokeWidth="2" />
      </Entry>
      <Entry word={key.acted}>
        <rect x="1" y="2.5" width="14" height="9" fill="var(--ink)" />
        <circle cx="19" cy="7" r="2.6" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
      </Entry>
      <Entry word={key.last}>
        <path d="M1 7h18M20 0v14" stroke="var(--ink)" strokeWidth="1.5" />
      </Entry>
      <Entry word={key.harm} width={26}>
        <rect width="26" height="14" fill="var(--land)" />
        <rect width="9" height="14" fill="url(#p-sand)" />
        <rect x="18" width="8" height="14" fill="url(#p-land)" />
        <path d="M9.5 0v14" stroke="var(--coast)" strokeWidth="2" />
      </Entry>
    </>
  );
}

function Entry({
  word,
  width = 22,
  children,
}: {
  readonly word: string;
  readonly width?: number;
  readonly children: ReactNode;
}) {
  return (
    <span>
      <svg width={width} height="14" aria-hidden="true">
        {children}
      </svg>
      {word}
    </span>
  );
}
