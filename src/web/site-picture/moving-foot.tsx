import { type FormEvent, useEffect, useState } from "react";
import { asSentence } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { Marked, useNames } from "../parts/names.tsx";
import { COARSE, useMedia } from "../parts/use-width.ts";
import { pictureWords } from "../words/site-picture.ts";
import { cancelMove, drop, forgetSaid, type Moving, useMoving } from "./moving.ts";
import type { Target } from "./targets.ts";

/** At the foot of the picture: what is in hand, every place that takes it as a list, and what came of it. */
export function MovingFoot({ targets }: { readonly targets: (moving: Moving) => readonly Target[] }) {
  const { moving, said } = useMoving();
  const byFinger = useMedia(COARSE);
  useEffect(() => {
    if (moving === null) return;
    const leave = (event: KeyboardEvent): void => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      cancelMove();
    };
    addEventListener("keydown", leave);
    return () => removeEventListener("keydown", leave);
  }, [moving]);
  const hint =
    moving === null
      ? null
      : moving.task === "connect"
        ? pictureWords.hintConnect(moving.part)
        : pictureWords.hintMove(moving.part);
  return (
    <div className={moving === null && said === null ? "moving-foot idle" : "moving-foot"}>
      <p role="status" className={said?.refused === true ? "refused" : undefined}>
        {hint !== null && (
          <>
            <b>
              <Marked text={hint} />
            </b>{" "}
            <span className="sm">
              {moving?.by === "hand"
                ? byFinger
                  ? pictureWords.hintFinger
                  : pictureWords.hintHand
                : byFinger
                  ? pictureWords.hintPress
                  : pictureWords.hintKeys}
            </span>
          </>
        )}
        {said !== null && moving === null && (
          <>
            {said.refused && (
              <>
                <Glyph name="notice" /> <b>{pictureWords.refused}</b>{" "}
              </>
            )}
            <Marked text={said.refused ? asSentence(said.text) : said.text} />
          </>
        )}
      </p>
      {moving?.by === "keys" && (
        <Places key={`${moving.task} ${moving.part}`} moving={moving} targets={targets(moving)} />
      )}
      {said?.refused === true && moving === null && (
        <button className="btn" type="button" onClick={forgetSaid}>
          {pictureWords.close}
        </button>
      )}
    </div>
  );
}

/** The same places as a list: also those of systems that are not on show. */
function Places({ moving, targets }: { readonly moving: Moving; readonly targets: readonly Target[] }) {
  const names = useNames();
  const [chosen, setChosen] = useState(targets[0]?.id ?? "");
  const put = (event: FormEvent): void => {
    event.preventDefault();
    const target = targets.find(({ id }) => id === chosen);
    if (target !== undefined) void drop(target);
  };
  return (
    <form className="places" onSubmit={put}>
      {targets.length === 0 ? (
        <span className="sm">{pictureWords.nowhere(moving.part)}</span>
      ) : (
        <>
          <select
            aria-label={pictureWords.otherPlaces}
            value={chosen}
            onChange={(event) => setChosen(event.target.value)}
          >
            {targets.map(({ id }) => (
              <option key={id} value={id}>
                {names.water(id) ?? id}
              </option>
            ))}
          </select>
          <button className="btn" type="submit">
            {pictureWords.put}
          </button>
        </>
      )}
      <button className="btn" type="button" onClick={cancelMove}>
        {pictureWords.cancel}
      </button>
    </form>
  );
}
