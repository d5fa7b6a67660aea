import { useMemo, useState } from "react";
import type { DrillReport, Site } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { ordered } from "../board/order.ts";
import { asSentence, span } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { PHONE, useMedia, useWidth } from "../parts/use-width.ts";
import { words } from "../words.ts";
import { Chart, plotOf } from "./chart.tsx";
import { curvesOf, tellingCurves, tellingDevices } from "./quantities.ts";
import { QuantityPicker } from "./quantity-picker.tsx";
import { delaysOf, runWith, spansOf } from "./run.ts";
import { LaterSlider } from "./slider.tsx";
import { FigureTable } from "./table.tsx";
import { Title } from "./title.tsx";
import { useDrill } from "./use-drill.ts";
import { Why } from "./why.tsx";

/** Lanes of devices that a page opens with. */
const DEVICES_AT_FIRST = 2;

/** One drill: its curves, events, messages and people on one time axis, and what would have been had help come later. */
export function Timeline({ known, site, id }: { readonly known: Known; readonly site: Site; readonly id: string }) {
  const drill = useDrill(id, known.site?.readAt ?? null);
  const { report: rehearsal, partial } = known;
  const order = useMemo(() => ordered(drillsOf({ report: rehearsal, partial })), [rehearsal, partial]);
  if (drill.state === "loading") return <p className="quiet">{words.drill.loading}</p>;
  if (drill.state === "failed") {
    return (
      <div className="err page-err" role="alert">
        <Glyph name="notice" />
        <div>
          <h1>{words.drill.failed}</h1>
          <p>{drill.why}</p>
          <p>
            <Link to="/">{words.trouble.toDrills}</Link>
          </p>
        </div>
      </div>
    );
  }
  const place = { index: order.findIndex((result) => result.id === id) + 1, all: order.length };
  return <OpenDrill key={id} report={drill.report} site={site} place={place} />;
}

function OpenDrill({
  report,
  site,
  place,
}: {
  readonly report: DrillReport;
  readonly site: Site;
  readonly place: { readonly index: number; readonly all: number };
}) {
  const [box, width] = useWidth<HTMLDivElement>();
  const narrow = useMedia(PHONE);
  const spans = useMemo(() => spansOf(report), [report]);
  const [showsWhole, setShowsWhole] = useState(false);
  const endMin = showsWhole ? spans.whole : spans.fit;
  const { waters, devices } = useMemo(() => curvesOf(report, site), [report, site]);
  const [shown, setShown] = useState(() => tellingCurves(waters, report, site, spans.fit));
  const [allDevices, setAllDevices] = useState(false);
  const [delayMin, setDelayMin] = useState(0);
  const run = useMemo(() => runWith(report, delayMin), [report, delayMin]);
  const delays = useMemo(() => delaysOf(report), [report]);

  const shownWaters = waters
    .filter(({ key }) => shown.includes(key))
    .sort((a, b) => shown.indexOf(a.key) - shown.indexOf(b.key));
  const telling = tellingDevices(devices, report, endMin);
  const shownDevices = allDevices ? telling : telling.slice(0, DEVICES_AT_FIRST);
  const plot = plotOf(width, endMin, narrow);
  const toggle = (key: string): void =>
    setShown((now) => (now.includes(key) ? now.filter((other) => other !== key) : [...now, key]));

  return (
    <>
      <Title report={report} run={run} site={site} lead={shownWaters[0]} endMin={endMin} place={place} />
      <div className="grid">
        <div className="chart">
          <LineKey />
          <div ref={box}>
            {width > 0 && (
              <Chart
                report={report}
                run={run}
                waters={shownWaters}
                devices={shownDevices}
                width={width}
                endMin={endMin}
                narrow={narrow}
              />
            )}
          </div>
          {width > 0 && report.minutes.acting !== null && delays.length > 1 ? (
            <LaterSlider plot={plot} actMin={report.minutes.acting} delays={delays} run={run} onChoose={setDelayMin} />
          ) : (
            <p className="sm no-later">
              {report.minutes.acting === null && report.verdict !== "absorbed" && report.verdict !== "handled"
                ? words.drill.nobody
                : words.drill.ruleActed}
            </p>
          )}
          <div className="tools">
            <QuantityPicker waters={waters} shown={shown} onToggle={toggle} />
            {telling.length > DEVICES_AT_FIRST && (
              <label className="layer noprint">
                <input type="checkbox" checked={allDevices} onChange={(event) => setAllDevices(event.target.checked)} />
                {words.drill.devices}
              </label>
            )}
            {spans.whole > spans.fit * 1.25 && (
              <label className="layer noprint">
                <input type="checkbox" checked={showsWhole} onChange={(event) => setShowsWhole(event.target.checked)} />
                {words.drill.windowAll(span(spans.whole))}
              </label>
            )}
          </div>
          <FigureTable report={report} run={run} curves={[...shownWaters, ...shownDevices]} endMin={endMin} />
        </div>
        <aside className="why">
          <Why report={report} run={run} />
          <WouldHelp report={report} />
          <p className="src sm">
            {report.flips_in_band && `${words.drill.flips} `}
            {report.derived !== null && `${words.drill.derived}: ${asTold(asSentence(report.derived))} `}
            {words.drill.source(report.engine, String(report.seed))} {words.board.estimate}
          </p>
        </aside>
      </div>
    </>
  );
}

function WouldHelp({ report }: { readonly report: DrillReport }) {
  if (report.would_help.length === 0) return null;
  return (
    <section>
      <h2>{words.drill.change}</h2>
      <ol className="fix-list">
        {report.would_help.map((remedy) => (
          <li key={remedy}>
            <Marked text={asSentence(remedy)} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function LineKey() {
  const { lines } = words.drill;
  return (
    <div className="line-key sm">
      <span>
        <svg width="26" height="10" aria-hidden="true">
          <path d="M0 5h26" stroke="var(--ink)" strokeWidth="1.75" />
        </svg>
        {lines.truth}
      </span>
      <span>
        <svg width="26" height="10" aria-hidden="true">
          <path d="M0 8h8V5h9V2h9" fill="none" stroke="var(--signal)" strokeWidth="1.5" />
        </svg>
        {lines.sensed}
      </span>
      <span>
        <svg width="26" height="10" aria-hidden="true">
          <path d="M0 5h26" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="5 4" />
        </svg>
        {lines.unattended}
      </span>
    </div>
  );
}
