import { useState } from "react";
import { type FirstSiteStart, LIMITS, type SiteProblem, type TakenIn } from "../../server/contract/index.ts";
import { go } from "../app/router.tsx";
import { adoptSite, openSite } from "../app/store.ts";
import { measure } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { startWords as words } from "../words/start.ts";
import { startApi } from "./start-api.ts";
import { sentenceOf } from "./use-conversation.ts";

const LISTED_PROBLEMS = 8;

interface Refusal {
  readonly title: string;
  readonly problems: readonly SiteProblem[];
}

/** An example, a file of the folder, or one from elsewhere: each leads to the board. */
export function OtherWays({
  examples,
  others,
}: {
  readonly examples: FirstSiteStart["examples"];
  readonly others: readonly string[];
}) {
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function follow(name: string, way: () => Promise<TakenIn>): Promise<void> {
    try {
      const { errors, opened } = await way();
      if (opened === null) {
        setRefusal({ title: words.notRead(name), problems: errors });
        return;
      }
      adoptSite(opened);
      go("/");
    } catch (error) {
      setRefusal({ title: sentenceOf(error), problems: [] });
    }
  }

  function takeIn(file: File): void {
    if (file.size > LIMITS.fileBytes) {
      setRefusal({ title: words.tooLarge(measure(LIMITS.fileBytes / 1_000_000, "MB")), problems: [] });
      return;
    }
    setRefusal(null);
    void follow(file.name, () => startApi.takeIn(file));
  }

  return (
    <section className="other-ways" aria-labelledby="other-ways">
      <h2 id="other-ways">{words.otherWays}</h2>
      <div className="ways">
        <div>
          <h3>{words.examples}</h3>
          <ul>
            {examples.map(({ file, name, systems, devices }) => (
              <li key={file}>
                <button
                  className="textual"
                  type="button"
                  onClick={() => void follow(file, () => startApi.openExample(file))}
                >
                  {file}
                </button>{" "}
                <span className="sm">
                  {name}, {words.example(systems, devices)}
                </span>
              </li>
            ))}
          </ul>
        </div>
        {others.length > 0 && (
          <div>
            <h3>{words.folder}</h3>
            <ul>
              {others.map((file) => (
                <li key={file}>
                  <button className="textual" type="button" onClick={() => void openSite(file).then(() => go("/"))}>
                    {file}
                  </button>
                </li>
              ))}
            </ul>
          </div>
        )}
        <div>
          <h3>
            <label htmlFor="take-in">{words.takeIn}</label>
          </h3>
          <p className="sm" id="take-in-note">
            {words.takeInNote}
          </p>
          <input
            id="take-in"
            type="file"
            accept=".yaml,.yml,text/yaml,text/plain"
            aria-describedby="take-in-note"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file !== undefined) takeIn(file);
            }}
          />
        </div>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
    </section>
  );
}

/** As `check` shows it: file and line, what is wrong, what would be right. */
function Refused({ refusal: { title, problems } }: { readonly refusal: Refusal }) {
  const shown = problems.slice(0, LISTED_PROBLEMS);
  return (
    <div className="err" role="alert">
      <Glyph name="notice" />
      <div>
        <b>{title}</b>
        <ul>
          {shown.map(({ file, line, column, where, message, hint }) => (
            <li key={`${line}:${column} ${where}`}>
              <span className="nb">
                {file}:{line}:{column}
              </span>{" "}
              {where === "" ? message : `${where}: ${message}`}
              {hint !== "" && `; ${hint}`}
            </li>
          ))}
          {problems.length > shown.length && <li>{words.moreProblems(problems.length - shown.length)}</li>}
        </ul>
      </div>
    </div>
  );
}
