import "./papers.css";
import { Link } from "../app/router.tsx";
import type { Known } from "../app/store.ts";
import { asSentence } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";
import { KeyHolder } from "./key-holder.tsx";
import { PapersIndex } from "./papers-index.tsx";
import { Proving } from "./proving.tsx";
import { Report } from "./report.tsx";
import { SetUp } from "./set-up.tsx";
import { type PapersDesk, usePapers } from "./use-papers.ts";

/** One of the papers, or the list of them. */
export default function PapersPage({
  known,
  paper,
  person,
}: {
  readonly known: Known;
  readonly paper: string;
  readonly person: string | null;
}) {
  const { rehearsal, site } = known;
  const desk = usePapers(`${site?.file} ${site?.readAt} ${rehearsal?.version} ${rehearsal?.finishedAt}`);
  if (desk.papers === null && desk.failure !== null) {
    return (
      <div className="err" role="alert">
        <Glyph name="notice" />
        <div>
          <b>{papersWords.failed}</b>
          <p>{asSentence(desk.failure)}</p>
          <button className="btn" type="button" onClick={desk.again}>
            {papersWords.tryAgain}
          </button>
        </div>
      </div>
    );
  }
  if (desk.papers === null) return <p className="quiet">{papersWords.loading}</p>;
  return (
    <>
      {paper !== "" && (
        <p className="crumb sm noprint">
          <Link to="/papers">{words.frame.papers}</Link>
        </p>
      )}
      <Paper desk={desk} paper={paper} person={person} />
    </>
  );
}

function Paper({
  desk,
  paper,
  person,
}: {
  readonly desk: PapersDesk;
  readonly paper: string;
  readonly person: string | null;
}) {
  if (desk.papers === null) return null;
  switch (paper) {
    case "report":
      return <Report papers={desk.papers} />;
    case "set-up":
      return <SetUp papers={desk.papers} />;
    case "proving":
      return <Proving papers={desk.papers} desk={desk} />;
    case "key-holder":
      return <KeyHolder papers={desk.papers} person={person} />;
    default:
      return <PapersIndex papers={desk.papers} />;
  }
}
