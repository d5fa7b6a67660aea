import "./compare.css";
import { type ReactNode, useMemo } from "react";
import type { Site } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import type { Known } from "../app/store.ts";
import { isChanged, useDraft } from "../draft/draft-store.ts";
import { NamesProvider } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";
import { Chooser } from "./chooser.tsx";
import { Compared } from "./compared.tsx";
import { useFileTrial } from "./file-trial.ts";
import { readWith, together, withBefore, withTrial } from "./sides.ts";
import { FileAtWork, Nothing, NotRehearsed } from "./states.tsx";

interface Props {
  readonly known: Known;
  readonly site: Site;
  readonly query: URLSearchParams;
  readonly chooser: ReactNode;
}

/** Two versions of the site side by side: what got better, what got worse, and each drill that moved, before and after. */
export default function ComparePage({ known, site, query }: Omit<Props, "chooser">) {
  const draft = useDraft();
  const chosen = readWith(query, known, draft);
  const chooser = <Chooser chosen={chosen} files={known.site?.others ?? []} open={known.site?.file ?? ""} />;
  const props = { known, site, query, chooser };
  return (
    <>
      <p className="crumb sm">
        <Link to="/">{compareWords.back}</Link>
      </p>
      {chosen === null ? (
        <Nothing title={compareWords.empty.noChoice} note={compareWords.empty.noChoiceNote} chooser={chooser} />
      ) : chosen === "draft" ? (
        <WithDraft {...props} />
      ) : chosen === "before" ? (
        <WithBefore {...props} />
      ) : (
        <WithFile {...props} file={chosen.file} key={chosen.file} />
      )}
    </>
  );
}

function WithDraft({ known, site, query, chooser }: Props) {
  const draft = useDraft();
  const other = draft?.answer?.site ?? null;
  const names = useMemo(() => together(site, other), [site, other]);
  if (!isChanged(draft))
    return (
      <Nothing title={compareWords.empty.noDraft} note={compareWords.empty.noDraftNote} chooser={chooser}>
        <Link to="/findings">{compareWords.empty.toFindings}</Link>
      </Nothing>
    );
  const sides = withTrial(known, compareWords.withChanges(draft.file), draft.trial);
  if (sides === null) return <NotRehearsed known={known} chooser={chooser} />;
  return (
    <NamesProvider site={names}>
      <Compared sides={sides} total={draft.trial?.answer.total ?? 0} query={query} chooser={chooser} />
    </NamesProvider>
  );
}

function WithBefore({ known, query, chooser }: Props) {
  const { report, before, partial, rehearsal, site } = known;
  const sides = useMemo(
    () => withBefore({ report, before, partial, rehearsal, site }),
    [report, before, partial, rehearsal, site],
  );
  if (sides === null)
    return <Nothing title={compareWords.empty.noBefore} note={compareWords.empty.noBeforeNote} chooser={chooser} />;
  return <Compared sides={sides} total={rehearsal?.total ?? 0} query={query} chooser={chooser} />;
}

function WithFile({ known, site, query, chooser, file }: Props & { readonly file: string }) {
  const isThere = known.site?.others.includes(file) === true;
  // The open file is rehearsed first: together the two would only slow each other down.
  const fileTrial = useFileTrial(isThere && known.report !== null ? file : null);
  const other = fileTrial.trial?.answer.site ?? null;
  const names = useMemo(() => together(site, other), [site, other]);
  if (!isThere) return <Nothing title={compareWords.empty.noFile(file)} chooser={chooser} />;
  const sides = withTrial(known, compareWords.asItIs(file), fileTrial.trial);
  const work = <FileAtWork file={file} fileTrial={fileTrial} />;
  const failed = fileTrial.failure !== null || fileTrial.trial?.answer.state === "failed";
  if (sides !== null && failed && sides.after.drills.length === 0)
    return (
      <>
        <div className="compare-work">{work}</div>
        <Nothing title={compareWords.empty.noOther} chooser={chooser} />
      </>
    );
  if (sides === null) return <NotRehearsed known={known} chooser={chooser} />;
  return (
    <NamesProvider site={names}>
      <Compared sides={sides} total={fileTrial.trial?.answer.total ?? 0} query={query} chooser={chooser} work={work} />
    </NamesProvider>
  );
}
