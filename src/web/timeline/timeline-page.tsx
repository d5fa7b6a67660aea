import { useCallback, useDeferredValue, useMemo, useState } from "react";
import type { DrillReport, Site } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { ordered } from "../board/order.ts";
import { asSentence } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { PHONE, useMedia, useWidth } from "../parts/use-width.ts";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import { Chart, placeLanes, plotOf } from "./chart.tsx";
import { choosable, curvesOf, lanesOf, tellingCurves, tellingDevices, withSensors } from "./quantities.ts";
import { QuantityPicker } from "./quantity-picker.tsx";
import { Reader } from "./reader.tsx";
import { delaysOf, runWith, spansOf } from "./run.ts";
import { SaveButtons } from "./save-buttons.tsx";
import { LaterSlider } from "./slider.tsx";
import { FigureTable } from "./table.tsx";
import { Title } from "./title.tsx";
import { useDrill } from "./use-drill.ts";
import { laneScale } from "./water-lane.tsx";
import { SilentRules, Why } from "./why.tsx";
import { fitted, isWithin, type Window } from "./window.ts";
import { WindowControls } from "./window-controls.tsx";

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
  const fit = useMemo(() => ({ fromMin: 0, endMin: spans.fit }), [spans]);
  const [window, setWindow] = useState<Window>(fit);
  // The picture follows the hand as fast as it can be drawn; what the hand holds does not wait for it.
  const { fromMin, endMin } = useDeferredValue(window);
  const { waters, devices } = useMemo(() => curvesOf(report, site), [report, site]);
  const choices = useMemo(() => choosable(waters, report, site), [waters, report, site]);
  const [shown, setShown] = useState(() => withSensors(tellingCurves(waters, report, site, spans.fit), waters));
  const [allDevices, setAllDevices] = useState(false);
  const [delayMin, setDelayMin] = useState(0);
  const run = useMemo(() => runWith(report, delayMin), [report, delayMin]);
  const drawn = useDeferredValue(run);
  const delays = useMemo(() => delaysOf(report), [report]);

  const lanes = useMemo(() => lanesOf(shown, waters, choices), [shown, waters, choices]);
  const telling = useMemo(() => tellingDevices(devices, report, endMin), [devices, report, endMin]);
  const shownDevices = useMemo(
    () => (allDevices ? telling : telling.slice(0, DEVICES_AT_FIRST)),
    [allDevices, telling],
  );
  const plot = useMemo(() => plotOf(width, { fromMin, endMin }, narrow), [width, fromMin, endMin, narrow]);
  const scales = useMemo(
    () => lanes.map((curve) => laneScale(curve, report, drawn, { fromMin, endMin })),
    [lanes, report, drawn, fromMin, endMin],
  );
  const places = placeLanes(lanes.length, shownDevices.length, report.people.length, narrow);
  const look = useCallback((next: Window) => setWindow(fitted(next, spans.whole)), [spans]);
  const toggle = (key: string): void =>
    setShown((now) => (now.includes(key) ? now.filter((other) => other !== key) : withSensors([...now, key], waters)));
  const everything = useMemo(
    () => [
      ...lanesOf(
        choices.map(({ key }) => key),
        waters,
        choices,
      ),
      ...devices,
    ],
    [choices, waters, devices],
  );

  return (
    <>
      <Title report={report} run={run} site={site} lead={lanes[0]} endMin={endMin} place={place} />
      <div className="grid">
        <div className="chart">
          <div className="chart-head">
            <LineKey />
            <WindowControls window={window} fit={fit} wholeMin={spans.whole} onWindow={look} />
          </div>
          <div ref={box} className="plot-box">
            {width > 0 && (
              <>
                <Chart report={report} run={drawn} waters={lanes} scales={scales} devices={shownDevices} plot={plot} />
                <Reader
                  report={report}
                  run={drawn}
                  waters={lanes}
                  scales={scales}
                  devices={shownDevices}
                  plot={plot}
                  window={window}
                  places={places}
                  wholeMin={spans.whole}
                  onWindow={look}
                />
              </>
            )}
          </div>
          {width > 0 && report.minutes.acting !== null && delays.length > 1 ? (
            isWithin(plot, report.minutes.acting) ? (
              <LaterSlider
                plot={plot}
                actMin={report.minutes.acting}
                delays={delays}
                run={run}
                onChoose={setDelayMin}
              />
            ) : (
              <p className="sm no-later">
                {timelineWords.outside}{" "}
                <button className="textual" type="button" onClick={() => setWindow(fit)}>
                  {timelineWords.showAct}
                </button>
              </p>
            )
          ) : (
            <p className="sm no-later">
              {report.minutes.acting === null && report.verdict !== "absorbed" && report.verdict !== "handled"
                ? words.drill.nobody
                : words.drill.ruleActed}
            </p>
          )}
          <div className="tools">
            <QuantityPicker choices={choices} shown={shown} onToggle={toggle} />
            {telling.length > DEVICES_AT_FIRST && (
              <label className="layer noprint">
                <input type="checkbox" checked={allDevices} onChange={(event) => setAllDevices(event.target.checked)} />
                {words.drill.devices}
              </label>
            )}
            <SaveButtons
              report={report}
              run={run}
              site={site}
              waters={lanes}
              devices={shownDevices}
              all={everything}
              window={window}
            />
          </div>
          <FigureTable report={report} run={run} curves={[...lanes, ...shownDevices]} window={window} />
        </div>
        <aside className="why">
          <Why report={report} run={run} />
          {run.delayMin === 0 && <SilentRules report={report} />}
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
