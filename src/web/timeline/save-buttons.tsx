import { useState } from "react";
import type { DrillReport, Site } from "../../server/contract/index.ts";
import { marginText } from "../board/margin.ts";
import { wallClock } from "../parts/clock.ts";
import { asSentence, span } from "../parts/format.ts";
import { NamesProvider, partsOf, plainText, useNames } from "../parts/names.tsx";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import { Chart, plotOf } from "./chart.tsx";
import { csvOf, fileName } from "./csv.ts";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import { laneScale } from "./water-lane.tsx";
import type { Window } from "./window.ts";

/** What is shown as a picture or a table, in a file named by its drill. */
export function SaveButtons({
  report,
  run,
  site,
  waters,
  devices,
  all,
  window,
}: {
  readonly report: DrillReport;
  readonly run: Run;
  readonly site: Site;
  readonly waters: readonly Curve[];
  readonly devices: readonly Curve[];
  /** Every curve of the drill. */
  readonly all: readonly Curve[];
  readonly window: Window;
}) {
  const names = useNames();
  const [failed, setFailed] = useState(false);
  const say = timelineWords.save;

  const picture = async (): Promise<string> => {
    const { PICTURE_WIDTH, svgOf } = await import("./picture.tsx");
    const plot = plotOf(PICTURE_WIDTH, window, false);
    const scales = waters.map((curve) => laneScale(curve, report, run, window));
    const lanes = (
      <NamesProvider site={site}>
        <div className="chart">
          <Chart report={report} run={run} waters={waters} scales={scales} devices={devices} plot={plot} />
        </div>
      </NamesProvider>
    );
    return svgOf(lanes, pictureWords());
  };
  const pictureWords = () => {
    const { day, clock } = wallClock(report.starts, 0);
    const parts = partsOf(report).join(` ${words.board.and} `);
    const where = plainText(`${parts}. ${words.drill.starts(day, clock)}`, names);
    const margin = marginText({ verdict: run.verdict, margin_min: run.marginMin });
    const later = run.delayMin === 0 ? "" : `, ${say.later(span(run.delayMin))}`;
    const { truth, sensed, unattended } = words.drill.lines;
    return {
      title: report.name,
      line: say.line(where, asSentence(`${words.verdicts[run.verdict]}${later}`).slice(0, -1), margin),
      foot: `${report.site}. ${words.drill.source(report.engine, String(report.seed))} ${say.estimate}`,
      key: [truth, sensed, unattended],
    };
  };
  const attempt = async (make: () => Promise<void>): Promise<void> => {
    try {
      await make();
      setFailed(false);
    } catch {
      setFailed(true);
    }
  };
  const savePng = async (): Promise<void> => {
    const { pngOf, save } = await import("./picture.tsx");
    save(await pngOf(await picture()), fileName(report, run, "png"));
  };
  const saveSvg = async (): Promise<void> => {
    const { save } = await import("./picture.tsx");
    save(new Blob([await picture()], { type: "image/svg+xml" }), fileName(report, run, "svg"));
  };
  const saveCsv = async (curves: readonly Curve[]): Promise<void> => {
    const { save } = await import("./picture.tsx");
    save(new Blob([csvOf(report, run, curves, site.zone)], { type: "text/csv" }), fileName(report, run, "csv"));
  };
  return (
    <fieldset className="seg save noprint" aria-label={say.name}>
      <span className="lab">{say.name}</span>
      <button type="button" onClick={() => void attempt(savePng)}>
        {say.png}
      </button>
      <button type="button" onClick={() => void attempt(saveSvg)}>
        {say.svg}
      </button>
      <button type="button" onClick={() => void attempt(() => saveCsv([...waters, ...devices]))}>
        {say.csv}
      </button>
      <button type="button" onClick={() => void attempt(() => saveCsv(all))}>
        {say.all}
      </button>
      {failed && (
        <span className="sm" role="alert">
          {say.failed}
        </span>
      )}
    </fieldset>
  );
}
