import type { ReactNode } from "react";
import { momentWords } from "../parts/clock.ts";
import { figure, workTime } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { switchUnits, useManner } from "../parts/manner.ts";
import { componentWords } from "../words/components.ts";
import { words } from "../words.ts";
import { Link } from "./router.tsx";
import { type Known, openSite } from "./store.ts";
import { switchTheme } from "./theme.ts";

export type View = "drills" | "site" | "papers";

const VIEWS: readonly { readonly view: View; readonly to: string; readonly name: string }[] = [
  { view: "site", to: "/site", name: words.frame.site },
  { view: "drills", to: "/", name: words.frame.drills },
  { view: "papers", to: "/papers", name: words.frame.papers },
];

/** The head with its neatline, the thumb words of a phone, and the page between them. */
export function Frame({
  known,
  view,
  notes,
  foot,
  children,
}: {
  readonly known: Known;
  readonly view: View | null;
  readonly notes: ReactNode;
  /** Stays at the foot of the window, over the thumb words. */
  readonly foot: ReactNode;
  readonly children: ReactNode;
}) {
  return (
    <>
      <a className="skip" href="#content">
        {words.frame.skip}
      </a>
      <header className="head">
        <Link className="mark" to="/" aria-label={words.product}>
          <Glyph name="mark" size={24} />
          <span>{words.product}</span>
        </Link>
        <SitePlace known={known} />
        <nav aria-label={words.frame.views}>
          <ViewLinks view={view} />
        </nav>
        <div className="word sd">
          <LastRehearsal known={known} />
        </div>
        <UnitsSwitch />
        <button className="theme" type="button" aria-label={words.frame.theme} onClick={switchTheme}>
          <Glyph name="night" size={20} />
        </button>
      </header>
      {notes}
      <main id="content" tabIndex={-1}>
        {children}
      </main>
      <footer className="colophon sd noprint">
        <Link to="/components">{componentWords.link}</Link>
      </footer>
      {foot}
      <nav className="thumbs" aria-label={words.frame.views}>
        <ViewLinks view={view} />
      </nav>
    </>
  );
}

/** Shows the units in use; pressed, it changes to the others. A phone has room for the first of them. */
function UnitsSwitch() {
  const { units } = useManner();
  const { now, other } = words.frame.units[units];
  return (
    <button className="units" type="button" aria-label={words.frame.switchUnits(now, other)} onClick={switchUnits}>
      {now.map((unit, i) => (
        <span key={unit} className={i === 0 ? undefined : "rest"}>
          {unit}
        </span>
      ))}
    </button>
  );
}

function ViewLinks({ view }: { readonly view: View | null }) {
  return VIEWS.map((each) => (
    <Link key={each.view} to={each.to} aria-current={each.view === view ? "page" : undefined}>
      {each.name}
    </Link>
  ));
}

/** The name of the place; where its folder holds more sites, the way to them; and the way to a new one. */
function SitePlace({ known }: { readonly known: Known }) {
  const { site } = known;
  if (site === null) return <div className="place" />;
  const isThere = site.others.includes(site.file);
  const name = site.site?.name ?? (isThere ? site.file : words.frame.noPlace);
  return (
    <div className="place">
      {site.others.length < (isThere ? 2 : 1) ? (
        <span className="place-name">{name}</span>
      ) : (
        <label>
          <span className="vh">{words.frame.openFile}</span>
          <select value={isThere ? site.file : ""} onChange={(event) => void openSite(event.target.value)}>
            {!isThere && <option value="">{name}</option>}
            {site.others.map((file) => (
              <option key={file} value={file}>
                {file === site.file ? name : file}
              </option>
            ))}
          </select>
        </label>
      )}
      {site.site !== null && (
        <Link className="new-place" to="/start">
          {words.frame.newPlace}
        </Link>
      )}
    </div>
  );
}

function LastRehearsal({ known }: { readonly known: Known }) {
  const { rehearsal, report, site } = known;
  if (report === null || rehearsal === null || rehearsal.finishedAt === null || rehearsal.state !== "done") return null;
  const when = momentWords(rehearsal.finishedAt, site?.site?.zone, words.frame);
  return words.frame.rehearsed(when, figure(report.drills.length), workTime(report.elapsed_s));
}
