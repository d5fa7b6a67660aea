import type { KeyHolderSheet, Papers } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { dayWords } from "../parts/clock.ts";
import { bare, figure, measure, span } from "../parts/format.ts";
import { Marked, Name } from "../parts/names.tsx";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";
import { PrintButton } from "./sheet-parts.tsx";

const say = papersWords.keyHolder;
const HOUR_MIN = 60;
const DAY_MIN = 1440;
const AT_ONCE_MIN = 15;
/** More plugs than these are known by their tags: a page has no room for them. */
const MOST_PLUGS = 10;

/** One page for whoever has the key, in words for someone who knows nothing of the place. */
export function KeyHolder({ papers, person }: { readonly papers: Papers; readonly person: string | null }) {
  const { keyHolders } = papers;
  const sheet = keyHolders.find((one) => one.person === person) ?? usualKeyHolder(papers);
  if (sheet === undefined) return <p className="quiet">{say.noPerson}</p>;
  return (
    <>
      <div className="choice for-sheet noprint">
        <fieldset className="seg" aria-label={say.choose}>
          <span className="lab">{say.choose}</span>
          {keyHolders.map(({ person: id }) => (
            <button
              key={id}
              type="button"
              aria-pressed={id === sheet.person}
              onClick={() => go(address("/papers/key-holder", { person: id }), "replace")}
            >
              {id}
            </button>
          ))}
        </fieldset>
        <PrintButton />
      </div>
      <Sheet papers={papers} sheet={sheet} />
    </>
  );
}

/** Most often someone who cannot do everything: a neighbour, a caretaker. */
function usualKeyHolder({ keyHolders }: Papers): KeyHolderSheet | undefined {
  return keyHolders.find(({ helps }) => helps) ?? keyHolders[0];
}

function Sheet({ papers, sheet }: { readonly papers: Papers; readonly sheet: KeyHolderSheet }) {
  const { calls, looks, systems, acts, never, person } = sheet;
  return (
    <article className={systems.length > 6 ? "paper key-sheet many" : "paper key-sheet"}>
      <header>
        <div>
          <h1>{say.title}</h1>
          <p>
            {papers.site}, {say.forWhom(person)}
          </p>
        </div>
        <ul className="to-write">
          {say.toWrite.map((what) => (
            <li key={what}>
              <span>{what}</span>
            </li>
          ))}
        </ul>
      </header>
      <p className="doubt">{say.doubt}</p>
      {calls.length === 0 ? (
        <p>{say.noCalls}</p>
      ) : (
        <ol className="calls">
          {calls.map(({ person: id, notAt }, place) => (
            <li key={id}>
              <p>{say.call(place, id)}</p>
              <p className="line">
                <span className="vh">{say.number}</span>
              </p>
              {notAt !== "" && <p className="sm">{say.notAt(notAt)}</p>}
            </li>
          ))}
        </ol>
      )}
      <div className="two first-look">
        <section>
          <h2>{say.looks}</h2>
          <ol className="looks">
            {looks.map((look) => (
              <li key={look}>{look}</li>
            ))}
          </ol>
        </section>
        <Normal systems={systems} />
      </div>
      <Acts acts={acts} />
      <div className="two">
        <section>
          <h2>{say.never}</h2>
          <ul className="never">
            {never.map((what) => (
              <li key={what}>{what}</li>
            ))}
          </ul>
        </section>
        <WriteDown systems={systems} />
      </div>
      <footer className="sm">
        <span>{papers.report === null ? say.foot : say.footTried(figure(papers.report.faults))}</span>
        <span>{papersWords.made(dayWords(papers.madeAt, papers.zone))}</span>
      </footer>
    </article>
  );
}

function Normal({ systems }: Pick<KeyHolderSheet, "systems">) {
  return (
    <section>
      <h2>{say.well}</h2>
      <ul className="normal">
        {systems.map(({ system, room, lowC, highC, vessels }) => (
          <li key={system}>
            <b>
              <Name id={system} />
            </b>{" "}
            <span className="sm">{room}</span>
            <br />
            {lowC === null || highC === null ? (
              say.noThermometer
            ) : (
              <span className="nb">
                {say.temperature} {say.fromTo(bare(lowC, words.units.C, 1), measure(highC, words.units.C, 1))}
              </span>
            )}
            {vessels.length > 0 && (
              <>
                , {say.vessel}{" "}
                {vessels.map(({ body }, place) => (
                  <span key={body}>
                    {place > 0 && ", "}
                    <Name id={body} />
                  </span>
                ))}
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Acts({ acts }: Pick<KeyHolderSheet, "acts">) {
  if (acts.length === 0) return <p className="doubt">{say.noActs}</p>;
  return (
    <table className="acts">
      <thead>
        <tr>
          <th scope="col">{say.see}</th>
          <th scope="col">{say.act}</th>
          <th scope="col" className="num">
            {say.have}
          </th>
        </tr>
      </thead>
      <tbody>
        {acts.map(({ see, act, plugs, haveMin }) => (
          <tr key={see}>
            <th scope="row">{see}</th>
            <td>
              <Marked text={act} />
              {plugs.length > 0 && (
                <span className="sm plugs">
                  {plugs.length > MOST_PLUGS
                    ? say.plugsOf(plugs.length, [...new Set(plugs.map(({ on }) => on ?? say.cells))].join(", "))
                    : say.plugs(plugs.map(({ device, on }) => say.plugOn(device, on ?? say.cells)).join(", "))}
                </span>
              )}
            </td>
            <td className="num">{haveWords(haveMin)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function haveWords(haveMin: number | null): string {
  if (haveMin === null) return say.unknown;
  if (haveMin < AT_ONCE_MIN) return say.atOnce;
  if (haveMin < HOUR_MIN) return say.minutes;
  const step = haveMin < 2 * DAY_MIN ? HOUR_MIN : DAY_MIN;
  return say.about(span(Math.floor(haveMin / step) * step));
}

const LINES = ["1", "2", "3", "4", "5"];

/** Room for what is read on each visit; with many tanks one wide place for all of them. */
function WriteDown({ systems }: Pick<KeyHolderSheet, "systems">) {
  const columns = systems.length > 3 ? [""] : systems.map(({ system }) => system);
  return (
    <section className="write">
      <h2>{say.write}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{say.date}</th>
            {columns.map((id) => (
              <th scope="col" key={id}>
                {id === "" ? say.temperatures : <Name id={id} />}
              </th>
            ))}
            <th scope="col">{say.saw}</th>
          </tr>
        </thead>
        <tbody>
          {LINES.slice(0, systems.length > 6 ? 3 : 5).map((line) => (
            <tr key={line}>
              <td />
              {columns.map((id) => (
                <td key={id} />
              ))}
              <td />
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
