import { asSentence, joinUnits } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { asTold } from "../parts/told.ts";
import { startWords as words } from "../words/start.ts";
import { stepOfField } from "./steps.tsx";
import type { Conversation } from "./use-conversation.ts";

/** What was filled in and what was not asked, in words, and the file that says it. */
export function LastStep({ conversation }: { readonly conversation: Conversation }) {
  const { made, goTo } = conversation;
  if (made === null) return <p className="quiet">{words.checking}</p>;
  if (made.site === null) {
    return (
      <div className="err" role="alert">
        <Glyph name="notice" />
        <div>
          <b>{words.notYet}</b>
          <ul>
            {made.errors.map((error) => (
              <li key={`${error.line} ${error.where}`}>
                {asSentence(error.message)} {asSentence(error.hint)}{" "}
                <button className="textual" type="button" onClick={() => goTo(stepOfField(error.field))}>
                  {words.goTo(words.steps[stepOfField(error.field)].what)}
                </button>
              </li>
            ))}
          </ul>
        </div>
      </div>
    );
  }
  const own = made.assumptions.filter(({ why }) => why === "");
  const loaders = made.assumptions.filter(({ why }) => why !== "");
  return (
    <>
      <section className="ask-part">
        <h2>{words.yours}</h2>
        <ul className="assumed">
          {own.map(({ text }) => (
            <li key={text}>{onScreen(text)}</li>
          ))}
        </ul>
      </section>
      <section className="ask-part">
        <h2>{words.loaders}</h2>
        <ul className="assumed">
          {loaders.map(({ text, why }) => (
            <li key={text}>
              {onScreen(text)} <span className="sm">{why}</span>
            </li>
          ))}
        </ul>
      </section>
      <details>
        <summary>{words.file(made.file)}</summary>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a text that scrolls must be reached by keyboard */}
        <section className="file-text" tabIndex={0} aria-label={words.fileText}>
          <pre>{made.text}</pre>
        </section>
      </details>
      <p className="sm ask-caution">{words.estimate}</p>
    </>
  );
}

/** The file's units as a screen has them. */
const onScreen = (text: string): string => joinUnits(asTold(text).replaceAll(" degF", " \u00b0F"));
