import { lazy, Suspense, useEffect } from "react";
import type { Site } from "../../server/contract/index.ts";
import { Board } from "../board/board.tsx";
import { siteShown, useDraft } from "../draft/draft-store.ts";
import { ChangeStrip } from "../draft/strip.tsx";
import { Sprite } from "../parts/glyphs.tsx";
import { useManner } from "../parts/manner.ts";
import { NamesProvider } from "../parts/names.tsx";
import { SitePicture } from "../site-picture/site-page.tsx";
import { Timeline } from "../timeline/timeline-page.tsx";
import { compareWords } from "../words/compare.ts";
import { componentWords } from "../words/components.ts";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { Frame, type View } from "./frame.tsx";
import { Notes } from "./notes.tsx";
import { go, Link, type Place, usePlace } from "./router.tsx";
import { type Known, useKnown } from "./store.ts";

/** Loaded when somebody goes there: most days nobody describes a new place. */
const Start = lazy(async () => ({ default: (await import("../start/start-page.tsx")).Start }));
const PapersPage = lazy(() => import("../papers/papers-page.tsx"));
const PairsPage = lazy(() => import("../pairs/pairs-page.tsx"));
/** What is not looked at first is fetched when it is. */
const FindingsPage = lazy(() => import("../remedies/findings-page.tsx"));
const ComparePage = lazy(() => import("../compare/compare-page.tsx"));
const ComponentsPage = lazy(() =>
  import("../components/components-page.tsx").then((view) => ({ default: view.ComponentsPage })),
);

export function App() {
  useManner();
  const known = useKnown();
  const place = usePlace();
  const view = viewOf(place.path);
  const draft = useDraft();
  const site = known.site === null ? null : siteShown(draft, known.site);

  useEffect(() => {
    document.title = words.title(pageName(place.path), site?.name ?? "");
  }, [place.path, site]);

  const isUnwritten = known.site !== null && site === null && known.site.errors.length === 0;
  useEffect(() => {
    if (isUnwritten && place.path !== START) go(START, "replace");
  }, [isUnwritten, place.path]);

  return (
    <NamesProvider site={site}>
      <Sprite />
      <Frame known={known} view={view} notes={<Notes known={known} />} foot={<ChangeStrip known={known} />}>
        <Suspense fallback={<p className="quiet">{words.work.loading}</p>}>
          <Page known={known} place={place} shown={site} />
        </Suspense>
      </Frame>
    </NamesProvider>
  );
}

const START = "/start";

function Page({
  known,
  place,
  shown,
}: {
  readonly known: Known;
  readonly place: Place;
  /** The site as it would be with the changes that are not kept yet; what was rehearsed is the file. */
  readonly shown: Site | null;
}) {
  if (place.path === START) {
    return <Start known={known} />;
  }
  if (place.path === "/components") return <ComponentsPage known={known} />;
  if (known.site === null) return <p className="quiet">{words.work.loading}</p>;
  const site = known.site.site;
  if (site === null) return null; // the notes above say why
  switch (place.path) {
    case "/":
      return <Board known={known} site={site} query={place.query} />;
    case "/findings":
      return <FindingsPage known={known} />;
    case "/pairs":
      return <PairsPage site={site} edition={known.site.readAt} query={place.query} />;
    case "/compare":
      return <ComparePage known={known} site={site} query={place.query} />;
    case "/drill":
      return <Timeline known={known} site={site} id={place.query.get("id") ?? ""} />;
    case "/site":
      return (
        <SitePicture
          known={known}
          site={shown ?? site}
          chosen={place.query.get("part")}
          system={place.query.get("system")}
        />
      );
    case "/papers":
    case "/papers/report":
    case "/papers/set-up":
    case "/papers/proving":
    case "/papers/key-holder":
      return <PapersPage known={known} paper={paperOf(place.path)} person={place.query.get("person")} />;
    default:
      return (
        <>
          <h1 className="say">{words.trouble.noSuchPage}</h1>
          <p className="then">
            <Link to="/">{words.trouble.toDrills}</Link>
          </p>
        </>
      );
  }
}

const DRILL_PATHS = ["/", "/findings", "/compare", "/drill", "/pairs"];

function viewOf(path: string): View | null {
  if (path === "/site") return "site";
  if (path === "/papers" || path.startsWith("/papers/")) return "papers";
  return DRILL_PATHS.includes(path) ? "drills" : null;
}

function pageName(path: string): string {
  if (path === "/site") return words.frame.site;
  if (path === START) return words.frame.newPlace;
  if (path.startsWith("/papers")) return words.frame.paper[paperOf(path)] ?? words.frame.papers;
  if (path === "/pairs") return pairWords.title;
  if (path === "/compare") return compareWords.page;
  if (path === "/components") return componentWords.title;
  return path === "/findings" ? words.frame.findings : words.frame.drills;
}

/** The last word of the address of a paper; empty for the list of them. */
function paperOf(path: string): string {
  return path.slice("/papers/".length);
}
