import { useMemo, useState } from "react";
import type { Papers, ProvingItem } from "../../server/contract/index.ts";
import { figure } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { plainText, useNames } from "../parts/names.tsx";
import { papersWords } from "../words/papers.ts";
import { PaperHead } from "./sheet-parts.tsx";
import { TrialItem } from "./trial-item.tsx";
import type { PapersDesk } from "./use-papers.ts";

const say = papersWords.proving;

/** Trials on the real place, what is due first, and where their results are recorded. */
export function Proving({ papers, desk }: { readonly papers: Papers; readonly desk: PapersDesk }) {
  const { items, unread, orphans, people } = papers.proving;
  const names = useNames();
  const [all, setAll] = useState(false);
  const [find, setFind] = useState("");
  const [open, setOpen] = useState<string | null>(null);
  // What was recorded on this page stays where it was, so that it can be seen and taken back.
  const [stays, setStays] = useState<readonly string[]>([]);
  const [told, setTold] = useState("");
  const order = useFirstOrder(items);
  const shown = order.filter(
    (item) => (all || item.due || stays.includes(item.id)) && matches(item, find.trim().toLowerCase()),
  );
  const due = items.filter((item) => item.due).length;
  return (
    <article className="paper proving">
      <PaperHead papers={papers} name="proving" say={say.say(figure(due), figure(items.length), due)} />
      <p className="then">{say.counts}</p>
      {unread.length > 0 && (
        <div className="err" role="alert">
          <Glyph name="notice" />
          <div>
            <b>{say.unread}</b>
            <ul>
              {unread.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </div>
        </div>
      )}
      {orphans > 0 && <p className="sm">{say.orphans(figure(orphans), orphans)}</p>}
      <div className="choice noprint">
        <fieldset className="seg" aria-label={say.show}>
          <button type="button" aria-pressed={!all} onClick={() => setAll(false)}>
            {say.due}
          </button>
          <button type="button" aria-pressed={all} onClick={() => setAll(true)}>
            {say.all}
          </button>
        </fieldset>
        <input
          className="find"
          type="search"
          placeholder={say.find}
          aria-label={say.find}
          value={find}
          onChange={(event) => setFind(event.target.value)}
        />
      </div>
      <p className="vh" role="status">
        {told}
      </p>
      {shown.length === 0 && <p className="quiet">{items.length > 0 && find === "" ? say.noneDue : say.none}</p>}
      <ul className="trials">
        {shown.map((item) => (
          <TrialItem
            key={item.id}
            item={item}
            madeAt={papers.madeAt}
            zone={papers.zone}
            people={people}
            isOpen={open === item.id}
            onOpen={() => setOpen(open === item.id ? null : item.id)}
            onRecord={async (result) => {
              await desk.record(result);
              setStays((ids) => [...ids, item.id]);
              setOpen(null);
              setTold(say.recorded(plainText(item.title, names), result.held ? say.resultHeld : say.resultFailed));
            }}
            onTakeBack={async (id) => {
              await desk.takeBack(id);
              setStays((ids) => [...ids, item.id]);
              setTold(say.takenBack(plainText(item.title, names)));
            }}
          />
        ))}
      </ul>
      <p className="sd paper-foot">{papersWords.estimate}</p>
    </article>
  );
}

/** The order in which the page was opened: a list that jumps under the hand loses its reader. */
function useFirstOrder(items: readonly ProvingItem[]): readonly ProvingItem[] {
  const [first] = useState<ReadonlyMap<string, number>>(() => new Map(items.map(({ id }, place) => [id, place])));
  return useMemo(
    () => items.toSorted((a, b) => (first.get(a.id) ?? first.size) - (first.get(b.id) ?? first.size)),
    [items, first],
  );
}

function matches(item: ProvingItem, find: string): boolean {
  return find === "" || `${item.id} ${item.title} ${item.steps.join(" ")}`.toLowerCase().includes(find);
}
