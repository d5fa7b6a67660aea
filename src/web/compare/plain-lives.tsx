import type { RehearsalReport } from "../../server/contract/index.ts";
import { asSentence } from "../parts/format.ts";
import { Marked } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";

type PlainLife = RehearsalReport["plain_life"];

/** Harm that comes without any fault, where only one of the two versions has it. */
export function PlainLives({ before, after }: { readonly before: PlainLife; readonly after: PlainLife }) {
  const gone = before.filter(({ finding }) => !after.some((other) => other.finding === finding));
  const come = after.filter(({ finding }) => !before.some((other) => other.finding === finding));
  if (gone.length + come.length === 0) return null;
  return (
    <section className="moved">
      <h2>{compareWords.plain}</h2>
      <ul>
        {[
          ...come.map((plain) => ({ plain, side: compareWords.plainAfter })),
          ...gone.map((plain) => ({ plain, side: compareWords.plainBefore })),
        ].map(({ plain, side }) => (
          <li className="lone" key={`${side} ${plain.circumstance}`}>
            <p>
              <Marked text={asSentence(plain.finding)} />
            </p>
            <span className="sm">{side}</span>
            <span className="sm">{plain.circumstance}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
