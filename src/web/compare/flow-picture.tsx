import type { VerdictKind } from "../../server/contract/index.ts";
import { VERDICTS } from "../board/order.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { compareWords } from "../words/compare.ts";
import { words } from "../words.ts";
import type { Flow } from "./difference.ts";

const say = compareWords.flow;

/**
 * From each verdict to each: what became worse lies on land, what became better in the water, and between them runs the
 * coast of what stayed.
 */
export function FlowPicture({ flow, common }: { readonly flow: Flow; readonly common: number }) {
  const { verdicts, counts } = flow;
  return (
    <figure className="flow">
      <table>
        <caption className="vh">{say.name}</caption>
        <thead>
          <tr>
            <td className="sd">
              <span aria-hidden="true">{say.corner}</span>
            </td>
            {verdicts.map((verdict) => (
              <th scope="col" key={verdict}>
                <Head verdict={verdict} side={say.after} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {verdicts.map((from, i) => (
            <tr key={from}>
              <th scope="row">
                <Head verdict={from} side={say.before} />
              </th>
              {verdicts.map((to, j) => (
                <td key={to} className={`${groundOf(from, to, i, j)}${counts[i][j] > 0 ? " some" : ""}`}>
                  {counts[i][j] > 0 && <span>{figure(counts[i][j])}</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <figcaption className="sd">
        <span className="swatch better" aria-hidden="true" />
        {say.better}
        <span className="swatch same" aria-hidden="true" />
        {say.same}
        <span className="swatch worse" aria-hidden="true" />
        {say.worse}
        <span className="of">
          {figure(common)} {say.inBoth}
        </span>
      </figcaption>
    </figure>
  );
}

/** Verdicts stand worst first, so that what moved right is better. What was not simulated is neither. */
function groundOf(from: VerdictKind, to: VerdictKind, i: number, j: number): string {
  if (i === j) return "same";
  if (from === "not simulated" || to === "not simulated") return "neither";
  return j > i ? "better" : "worse";
}

function Head({ verdict, side }: { readonly verdict: VerdictKind; readonly side: string }) {
  return (
    <span className="head-of">
      <VerdictGlyph verdict={verdict} />
      <span>
        <span className="vh">{side} </span>
        {words.verdicts[verdict]}
      </span>
    </span>
  );
}

/** The same in plain figures: how many of each verdict there are on both sides. */
export function CountsTable({
  before,
  after,
}: {
  readonly before: ReadonlyMap<VerdictKind, number>;
  readonly after: ReadonlyMap<VerdictKind, number>;
}) {
  const verdicts = VERDICTS.filter(
    (verdict) => verdict !== "not simulated" || (before.get(verdict) ?? 0) + (after.get(verdict) ?? 0) > 0,
  );
  return (
    <table className="counts">
      <caption className="vh">{say.counts}</caption>
      <thead>
        <tr>
          <th scope="col">{say.verdict}</th>
          <th scope="col">{say.before}</th>
          <th scope="col">{say.after}</th>
          <th scope="col">{say.change}</th>
        </tr>
      </thead>
      <tbody>
        {verdicts.map((verdict) => {
          const was = before.get(verdict) ?? 0;
          const is = after.get(verdict) ?? 0;
          return (
            <tr key={verdict}>
              <th scope="row">
                <VerdictGlyph verdict={verdict} /> {words.verdicts[verdict]}
              </th>
              <td>{figure(was)}</td>
              <td>{figure(is)}</td>
              <td>{is === was ? "" : `${is > was ? "+" : ""}${figure(is - was)}`}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
