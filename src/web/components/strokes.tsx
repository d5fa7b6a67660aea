import type { ReactNode } from "react";
import { componentWords } from "../words/components.ts";

const { stroke } = componentWords;

/** Every line and texture that means something, with its word. */
export function Strokes() {
  return (
    <ul>
      <Stroke word={stroke.border}>
        <rect x="1" y="7" width="118" height="4" fill="var(--paper)" stroke="var(--ink)" />
        <path d="M1 9h40M80 9h39" stroke="var(--ink)" strokeWidth="4" />
      </Stroke>
      <Stroke word={stroke.nothing}>
        <path d="M1 9h118" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="0 4" strokeLinecap="round" />
      </Stroke>
      <Stroke word={stroke.unnoticed}>
        <rect x="1" y="4" width="118" height="10" fill="url(#p-fog)" stroke="var(--ink-2)" />
      </Stroke>
      <Stroke word={stroke.message}>
        <rect x="1" y="4" width="118" height="10" fill="none" stroke="var(--signal)" />
        <path
          d={Array.from({ length: 23 }, (_, i) => `M${5 + i * 5} 4v10`).join("")}
          stroke="var(--signal)"
          strokeWidth="2"
        />
      </Stroke>
      <Stroke word={stroke.acted}>
        <rect x="1" y="4" width="90" height="10" fill="var(--ink)" />
        <circle cx="99" cy="9" r="3" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
      </Stroke>
      <Stroke word={stroke.chance}>
        <circle cx="9" cy="9" r="4" fill="none" stroke="var(--ink)" strokeWidth="1.5" strokeDasharray="2 1.6" />
      </Stroke>
      <Stroke word={stroke.last}>
        <path d="M1 9h90M91 2v14" stroke="var(--ink)" strokeWidth="1.5" />
      </Stroke>
      <Stroke word={stroke.harm}>
        <rect width="120" height="18" fill="var(--land)" />
        <rect width="40" height="18" fill="url(#p-sand)" />
        <rect x="80" width="40" height="18" fill="url(#p-land)" />
        <path d="M40 0v18" stroke="var(--coast)" strokeWidth="2" />
      </Stroke>
      <Stroke word={stroke.averted}>
        <rect width="120" height="18" fill="var(--land)" opacity="0.55" />
        <rect width="40" height="18" fill="url(#p-sand)" opacity="0.6" />
        <path d="M40 0v18" stroke="var(--coast)" strokeWidth="1.25" strokeDasharray="3 2.5" />
      </Stroke>
      <Stroke word={stroke.truth}>
        <path d="M1 9c40 0 60-5 118-5" fill="none" stroke="var(--ink)" strokeWidth="1.75" />
      </Stroke>
      <Stroke word={stroke.sensed}>
        <path d="M1 12h26V9h40V6h52" fill="none" stroke="var(--signal)" strokeWidth="1.25" />
      </Stroke>
      <Stroke word={stroke.unattended}>
        <path d="M1 9h118" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="5 4" />
      </Stroke>
      <Stroke word={stroke.expected}>
        <path d="M1 9h118" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="1.5 3" />
      </Stroke>
      <Stroke word={stroke.threshold}>
        <path d="M1 9h118" stroke="var(--signal)" strokeDasharray="2 3" />
      </Stroke>
      <Stroke word={stroke.range}>
        <rect y="3" width="120" height="12" fill="var(--water)" />
        <path d="M0 3h120M0 15h120" stroke="var(--water-2)" />
      </Stroke>
      <Stroke word={stroke.unsure}>
        <rect y="3" width="120" height="12" fill="var(--water-2)" />
        <path d="M0 8c40 0 70 3 120 2" fill="none" stroke="var(--ink)" strokeWidth="1.75" />
      </Stroke>
      <Stroke word={stroke.power}>
        <path d="M1 9h118M20 4v10M60 4v10" stroke="var(--current)" strokeWidth="1.6" />
        <circle cx="100" cy="9" r="3.5" fill="var(--current)" />
      </Stroke>
      <Stroke word={stroke.messages}>
        <path d="M1 9h118" stroke="var(--signal)" strokeWidth="1.6" strokeDasharray="7 3 1.5 3" />
      </Stroke>
    </ul>
  );
}

function Stroke({ word, children }: { readonly word: string; readonly children: ReactNode }) {
  return (
    <li className="pair-row narrow">
      <svg width="120" height="18" aria-hidden="true">
        {children}
      </svg>
      <span className="sm">{word}</span>
    </li>
  );
}
