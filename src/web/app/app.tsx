import { lazy, Suspense, useEffect } from "react";
import { Board } from "../board/board.tsx";
import { Findings } from "../board/findings.tsx";
import { Sprite } from "../parts/glyphs.tsx";
import { NamesProvider } from "../parts/names.tsx";
import { SitePicture } from "../site-picture/site-page.tsx";
import { Timeline } from "../timeline/timeline-page.tsx";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { Frame, type View } from "./frame.tsx";
import { Notes } from "./notes.tsx";
import { Link, type Place, usePlace } from "./router.tsx";
import { type Known, useKnown } from "./store.ts";

const PairsPage = lazy(() => import("../pairs/pairs-page.tsx"));

export function App() {
  const known = useKnown();
  const place = usePlace();
  const view = viewOf(place.path);
  const site = known.site?.site ?? null;

  useEffect(() => {
    document.title = words.title(pageName(place.path), site?.name ?? "");
  }, [place.path, site]);

  return (
    <NamesProvider site={site}>
      <Sprite />
      <Frame known={known} view={view} notes={<Notes known={known} />}>
        <Page known={known} place={place} />
      </Frame>
    </NamesProvider>
  );
}

function Page({ known, place }: { readonly known: Known; readonly place: Place }) {
  if (known.site === null) return <p className="quiet">{words.work.loading}</p>;
  const site = known.site.site;
  if (site === null) return null; // the notes above say why
  switch (place.path) {
    case "/":
      return <Board known={known} site={site} query={place.query} />;
    case "/findings":
      return <Findings known={known} />;
    case "/pairs":
      return (
        <Suspense fallback={<p className="quiet">{pairWords.loading}</p>}>
          <PairsPage site={site} edition={known.site.readAt} query={place.query} />
        </Suspense>
      );
    case "/drill":
      return <Timeline known={known} site={site} id={place.query.get("id") ?? ""} />;
    case "/site":
      return (
        <SitePicture known={known} site={site} chosen={place.query.get("part")} system={place.query.get("system")} />
      );
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

const DRILL_PATHS = ["/", "/findings", "/drill", "/pairs"];

function viewOf(path: string): View | null {
  if (path === "/site") return "site";
  return DRILL_PATHS.includes(path) ? "drills" : null;
}

function pageName(path: string): string {
  if (path === "/site") return words.frame.site;
  if (path === "/pairs") return pairWords.title;
  return path === "/findings" ? words.frame.findings : words.frame.drills;
}
