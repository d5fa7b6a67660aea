import type { VerdictKind } from "../../server/contract/index.ts";

/** The token that a verdict is drawn with; its glyph has the same name. */
export type VerdictToken = "absorbed" | "handled" | "handed" | "late" | "unseen";

export function verdictToken(verdict: VerdictKind): VerdictToken | null {
  if (verdict === "not simulated") return null;
  return verdict === "handed over" ? "handed" : verdict;
}

type GlyphName = VerdictToken | "mark" | "night" | "go" | "notice";

/** A mark beside a word, never instead of it, and so hidden from those who hear the word. */
export function Glyph({ name, size = 16 }: { readonly name: GlyphName; readonly size?: number }) {
  return (
    <svg className="g" width={size} height={size} aria-hidden="true">
      <use href={`#g-${name}`} />
    </svg>
  );
}

/** The glyph of a verdict in its colour. What was not simulated has none: there is nothing to show. */
export function VerdictGlyph({ verdict, size = 16 }: { readonly verdict: VerdictKind; readonly size?: number }) {
  const token = verdictToken(verdict);
  if (token === null) return <span className="g" />;
  return (
    <span className={`v-${token}`}>
      <Glyph name={token} size={size} />
    </span>
  );
}

/** Symbols and textures that every picture refers to; once a page. Patterns stand in user space, so that rows share one ground. */
export function Sprite() {
  return (
    <svg width="0" height="0" className="sprite" aria-hidden="true">
      <defs>
        <symbol id="g-absorbed" viewBox="0 0 16 16">
          <circle cx="8" cy="8" r="4.6" fill="none" stroke="currentColor" strokeWidth="1.7" />
          <path d="M.8 8h14.4" stroke="currentColor" strokeWidth="1.7" />
        </symbol>
        <symbol id="g-handled" viewBox="0 0 16 16">
          <path d="M2.8 2.8h10.4v10.4H2.8z" fill="none" stroke="currentColor" strokeWidth="1.7" />
          <path d="M2.8 8h10.4v5.2H2.8z" fill="currentColor" />
        </symbol>
        <symbol id="g-handed" viewBox="0 0 16 16">
          <path d="M3.4 1v14" stroke="currentColor" strokeWidth="1.8" />
          <path d="M4 1.8 15 6 4 10.2z" fill="currentColor" />
        </symbol>
        <symbol id="g-late" viewBox="0 0 16 16">
          <path d="M8 1.2v13.6M1.2 8h13.6" stroke="currentColor" strokeWidth="2.4" />
          <g fill="currentColor">
            <circle cx="4" cy="4" r="1.35" />
            <circle cx="12" cy="4" r="1.35" />
            <circle cx="4" cy="12" r="1.35" />
            <circle cx="12" cy="12" r="1.35" />
          </g>
        </symbol>
        <symbol id="g-unseen" viewBox="0 0 16 16">
          <circle
            cx="8"
            cy="8"
            r="6.6"
            fill="none"
            stroke="currentColor"
            strokeWidth="1.7"
            strokeDasharray="0 3.456"
            strokeLinecap="round"
          />
          <circle cx="8" cy="8" r="3" fill="currentColor" />
        </symbol>
        <symbol id="g-notice" viewBox="0 0 16 16">
          <path d="M8 1.5 15 14H1z" fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinejoin="round" />
          <path d="M8 6v4" stroke="currentColor" strokeWidth="1.7" />
          <circle cx="8" cy="12" r="1" fill="currentColor" />
        </symbol>
        <symbol id="g-mark" viewBox="0 0 24 24">
          <path d="M1 7.5c3.5 0 4.5 4.5 11 4.5s7.5-4.5 11-4.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M1 16.5c3.5 0 4.5-4.5 11-4.5s7.5 4.5 11 4.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <circle cx="12" cy="12" r="2.3" fill="currentColor" />
        </symbol>
        <symbol id="g-night" viewBox="0 0 20 20">
          <circle cx="10" cy="10" r="7" fill="none" stroke="currentColor" strokeWidth="1.5" />
          <path d="M10 3a7 7 0 0 1 0 14z" fill="currentColor" />
        </symbol>
        <symbol id="g-go" viewBox="0 0 16 16">
          <path d="M2 8h11M9 3.8 13.2 8 9 12.2" fill="none" stroke="currentColor" strokeWidth="1.6" />
        </symbol>
        <pattern id="p-fog" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0v6" stroke="var(--ink-2)" strokeWidth="2.2" />
        </pattern>
        <pattern id="p-sand" width="6" height="6" patternUnits="userSpaceOnUse">
          <circle cx="1.5" cy="1.5" r=".9" fill="var(--land-ink)" opacity=".75" />
          <circle cx="4.5" cy="4.5" r=".9" fill="var(--land-ink)" opacity=".75" />
        </pattern>
        <pattern id="p-land" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path d="M0 0v7" stroke="var(--land-ink)" strokeWidth=".8" opacity=".5" />
        </pattern>
      </defs>
    </svg>
  );
}
