import type { CountRow, Papers, ReportFinding, ReportPaper, VerdictKind } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { dayWords } from "../parts/clock.ts";
import { asSentence, figure, signedSpan, span } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked, Name } from "../parts/names.tsx";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";
import { type Column, PaperHead, Section, Sentences, Table } from "./sheet-parts.tsx";

const say = papersWords.report;
const VERDICTS: readonly VerdictKind[] = ["unseen", "late", "handed over", "handled", "absorbed"];
const DAY_MIN = 1440;

/** What was tried, what held, what did not, and what all of it rests on. */
export function Report({ papers }: { readonly papers: Papers }) {
  const { report } = papers;
  if (report === null) {
    return (
      <article className="paper">
        <PaperHead papers={papers} name="report" say={say.none} />
        <p className="then">
          {say.noneThen} <Link to="/">{say.toDrills}</Link>
        </p>
      </article>
    );
  }
  const day = report.finishedAt === null ? say.unknownDay : dayWords(report.finishedAt, papers.zone);
  return (
    <article className="paper">
      <PaperHead papers={papers} name="report" say={say.say(figure(report.drills), figure(report.held))} />
      <p>{papersWords.estimate}</p>
      {!report.complete && <p>{say.partial(figure(report.notRun))}</p>}
      <Tried report={report} />
      <Findings title={say.findings} findings={report.findings} inAll={report.findingsInAll} />
      {report.plainLife.length > 0 && (
        <Section title={say.plainLife}>
          <ul className="sentences">
            {report.plainLife.map(({ circumstance, text }) => (
              <li key={circumstance}>
                <Marked text={asSentence(text)} /> {asSentence(circumstance)}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {report.pairs !== null && (
        <>
          <Section title={say.pairs}>
            <p>{say.pairsSay(figure(report.pairs.drills))}</p>
            <Counts
              name={say.pairs}
              of={words.board.system.toLowerCase()}
              rows={[{ of: "", counts: report.pairs.counts, drills: report.pairs.drills }]}
            />
          </Section>
          <Findings title={say.pairs} findings={report.pairs.findings} inAll={report.pairs.findingsInAll} />
        </>
      )}
      <Assumptions report={report} />
      <Section title={say.notSimulated}>
        <Sentences of={report.notSimulated} />
      </Section>
      <Section title={papersWords.cautions}>
        <Sentences of={report.cautions} />
      </Section>
      <p className="sd paper-foot">
        {say.source(report.engine, String(report.seed), day)} {papersWords.estimate}
      </p>
    </article>
  );
}

function Tried({ report }: { readonly report: ReportPaper }) {
  const circumstances = report.circumstances
    .map(({ id, startsLocal, horizonDays }) =>
      say.circumstance(id, dayWords(`${startsLocal}Z`, "UTC"), span(horizonDays * DAY_MIN)),
    )
    .join(", ");
  return (
    <>
      <Section title={say.tried}>
        <p>{say.triedSays(figure(report.faults), figure(report.parts), circumstances)}</p>
        <Counts
          name={say.bySystem}
          of={words.board.system.toLowerCase()}
          rows={[...report.bySystem, { of: say.total, counts: report.counts, drills: report.drills }]}
        />
      </Section>
      <Section title={say.byCircumstance}>
        <Counts name={say.byCircumstance} of={say.circumstanceColumn} rows={report.byCircumstance} />
      </Section>
      {report.byPerson.length > 0 && (
        <Section title={say.byPerson}>
          <p className="sm">
            {say.byPersonNote} {report.byChance > 0 && say.byChance(figure(report.byChance), report.byChance)}
          </p>
          <Table
            name={say.byPerson}
            rows={report.byPerson}
            keyOf={({ person }) => person}
            columns={[
              { name: say.person, cell: ({ person }) => person },
              { name: words.verdicts["handed over"], num: true, cell: ({ handedOver }) => figure(handedOver) },
              { name: words.verdicts.late, num: true, cell: ({ late }) => figure(late) },
            ]}
          />
        </Section>
      )}
    </>
  );
}

/** A column a verdict, and one for all. */
function Counts({
  name,
  of,
  rows,
}: {
  readonly name: string;
  readonly of: string;
  readonly rows: readonly CountRow[];
}) {
  const columns: readonly Column<CountRow>[] = [
    { name: of, cell: (row) => (row.of === "" ? say.wholeSite : <Name id={row.of} />) },
    ...VERDICTS.map((verdict) => ({
      name: (
        <>
          <VerdictGlyph verdict={verdict} /> {words.verdicts[verdict]}
        </>
      ),
      label: words.verdicts[verdict],
      num: true,
      cell: (row: CountRow) => figure(row.counts[verdict]),
    })),
    { name: say.drills, num: true, cell: (row) => figure(row.drills) },
  ];
  return <Table name={name} rows={rows} keyOf={(row) => row.of} columns={columns} />;
}

function Findings({
  title,
  findings,
  inAll,
}: {
  readonly title: string;
  readonly findings: readonly ReportFinding[];
  readonly inAll: number;
}) {
  return (
    <Section title={title}>
      {findings.length === 0 ? (
        <p>{say.noFindings}</p>
      ) : (
        <Table
          name={title}
          rows={findings}
          keyOf={({ drill }) => drill}
          columns={[
            {
              name: say.finding,
              cell: ({ text, help, drill }) => (
                <>
                  <Link to={drillAddress(drill)}>
                    <Marked text={asSentence(text)} />
                  </Link>
                  {help !== null && (
                    <span className="sm help">
                      <Marked text={asSentence(say.helps(help))} />
                    </span>
                  )}
                </>
              ),
            },
            {
              name: say.verdict,
              cell: ({ verdict }) => (
                <span className="nb">
                  <VerdictGlyph verdict={verdict} /> {words.verdicts[verdict]}
                </span>
              ),
            },
            {
              name: say.margin,
              num: true,
              cell: ({ marginMin, verdict }) =>
                marginMin !== null ? signedSpan(marginMin) : verdict === "unseen" ? words.margin.nobodyTold : "",
            },
            { name: say.when, cell: ({ circumstances }) => circumstances.join(", ") },
          ]}
        />
      )}
      {inAll > findings.length && <p className="sm">{say.more(figure(inAll - findings.length))}</p>}
    </Section>
  );
}

function Assumptions({ report }: { readonly report: ReportPaper }) {
  const { assumptions, assumptionsInAll } = report;
  if (assumptions.length === 0) return null;
  return (
    <Section title={say.assumptions}>
      <p>{say.assumptionsSay(figure(assumptions.length), figure(assumptionsInAll))}</p>
      <Table
        name={say.assumptions}
        rows={assumptions}
        keyOf={({ part, key }) => `${part} ${key}`}
        columns={[
          { name: say.part, cell: ({ part }) => <Name id={part} /> },
          { name: say.key, cell: ({ key }) => key },
          { name: say.value, cell: ({ value }) => <Marked text={value} /> },
          { name: say.why, cell: ({ why }) => why },
        ]}
      />
    </Section>
  );
}
