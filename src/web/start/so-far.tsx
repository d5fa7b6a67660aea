import type { Site } from "../../server/contract/index.ts";
import { figure, measure } from "../parts/format.ts";
import { startWords as words } from "../words/start.ts";
import { Sketch } from "./sketch.tsx";
import type { Conversation } from "./use-conversation.ts";

/** What has been said so far: the tanks as a sketch, and a line for each group of questions that was reached. */
export function SoFar({ conversation }: { readonly conversation: Conversation }) {
  const { draft, lastGood, goTo } = conversation;
  const site = lastGood?.site ?? null;
  return (
    <aside className="so-far" aria-labelledby="so-far">
      <h2 id="so-far">{words.soFar}</h2>
      {site === null ? (
        <p className="quiet">{words.checking}</p>
      ) : (
        <>
          <Sketch site={site} />
          <ul>
            {linesOf(site, lastGood?.usual.away ?? "").map((line, step) =>
              step > draft.furthest ? null : (
                <li key={words.steps[step].what}>
                  <button
                    className="textual"
                    type="button"
                    aria-current={step === draft.step ? "step" : undefined}
                    onClick={() => goTo(step)}
                  >
                    {words.steps[step].what}
                  </button>
                  <span>{line}</span>
                </li>
              ),
            )}
          </ul>
        </>
      )}
    </aside>
  );
}

function linesOf(site: Site, usualAway: string): readonly string[] {
  const of = (...kinds: readonly string[]) => site.devices.filter(({ kind }) => kinds.includes(kind));
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  const heaters = of("heater");
  const pumps = of("return-pump", "wave-pump");
  const water = site.bodies.filter(({ holds }) => holds.kind === "salt");
  const away = site.circumstances.find(({ id }) => id === "away");
  const more = [
    of("skimmer").length > 0 ? words.sum.skimmer : "",
    of("top-off").length > 0 ? words.sum.topOff : "",
    of("doser").length > 0 ? words.sum.doser : "",
    of("calcium-reactor").length > 0 ? words.sum.reactor : "",
  ].filter((part) => part !== "");
  const feeding = site.circuits.filter(({ id }) => !site.circuits.some(({ on }) => on === id));
  return [
    `${site.name}, ${site.zone}`,
    words.sum.water(measure(sum(water.map(({ volumeL }) => volumeL)), "L"), site.systems.length),
    words.sum.heat(heaters.length, measure(sum(heaters.map(({ powerW }) => powerW)), "W")),
    words.sum.flow(pumps.length, measure(sum(pumps.map(({ flowLPerH }) => flowLPerH)), "L/h"), more),
    `${words.sum.power(feeding.length, measure(sum(site.devices.map(({ powerW }) => powerW)), "W"), site.batteries.length)}; ${words.sum.watch(site.sensors.length, site.rules.length)}`,
    words.sum.people(
      site.people.map(({ id }) => id).join(", "),
      away === undefined ? usualAway : `${figure(away.horizonDays, away.horizonDays % 1 === 0 ? 0 : 1)}\u00a0d`,
    ),
  ];
}
