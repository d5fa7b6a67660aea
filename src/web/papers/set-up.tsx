import type { Papers, Rung, SetUpSheet } from "../../server/contract/index.ts";
import { figure, measure, span } from "../parts/format.ts";
import { Marked, Name } from "../parts/names.tsx";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";
import { PaperHead, Section, Sentences, Table } from "./sheet-parts.tsx";

const say = papersWords.setUp;
const { column } = say;
const { units } = words;

/** What to enter into whatever hardware switches the place. */
export function SetUp({ papers }: { readonly papers: Papers }) {
  const sheet = papers.setUp;
  const { sockets, circuits, rules, notices } = sheet;
  return (
    <article className="paper">
      <PaperHead
        papers={papers}
        name="set-up"
        say={say.say(
          figure(sockets.length),
          say.circuitCount(circuits.length, figure(circuits.length)),
          say.ruleCount(rules.length, figure(rules.length)),
          say.noticeCount(notices.length, figure(notices.length)),
        )}
      />
      <Circuits sheet={sheet} />
      <Sockets sheet={sheet} />
      {sheet.batteries.length > 0 && <Batteries sheet={sheet} />}
      {sheet.hubs.length > 0 && <Hubs sheet={sheet} />}
      <Section title={say.rules}>
        {rules.length === 0 ? (
          <p>{say.noRules}</p>
        ) : (
          <Table
            name={say.rules}
            rows={rules}
            keyOf={({ rule }) => rule}
            columns={[
              { name: column.rule, cell: ({ rule }) => <Name id={rule} /> },
              { name: column.says, cell: ({ words: text }) => <Marked text={text} /> },
              { name: column.hubName, cell: ({ hub }) => <Name id={hub} /> },
            ]}
          />
        )}
      </Section>
      <Section title={say.notices}>
        {notices.length === 0 ? (
          <p>{say.noNotices}</p>
        ) : (
          <Table
            name={say.notices}
            rows={notices}
            keyOf={({ rule }) => rule}
            columns={[
              { name: column.rule, cell: ({ rule }) => <Name id={rule} /> },
              { name: column.urgency, cell: ({ urgency }) => say.urgency[urgency] },
              { name: column.notice, cell: ({ says }) => <Marked text={says} /> },
              {
                name: column.ladder,
                cell: ({ ladder, sentOver, siren }) => (
                  <>
                    {sentOver.length === 0 && <p>{siren ? say.siren : say.noWayOut}</p>}
                    <Ladder rungs={ladder} />
                  </>
                ),
              },
            ]}
          />
        )}
      </Section>
      <Section title={say.silence}>
        <p>
          {sheet.silenceWatch === null
            ? say.noSilence
            : say.silenceSays(
                span(sheet.silenceWatch.afterMin),
                sheet.silenceWatch.tells.map(({ person }) => person).join(", "),
              )}
        </p>
      </Section>
      <Section title={papersWords.cautions}>
        <Sentences of={sheet.cautions} />
      </Section>
    </article>
  );
}

function Circuits({ sheet }: { readonly sheet: SetUpSheet }) {
  return (
    <Section title={say.circuits}>
      <p className="sm">{say.circuitsNote(measure(sheet.volts, "V"))}</p>
      <Table
        name={say.circuits}
        rows={sheet.circuits}
        keyOf={({ circuit }) => circuit}
        columns={[
          { name: column.circuit, cell: ({ circuit }) => <Name id={circuit} /> },
          { name: column.hangsFrom, cell: ({ on }) => on ?? say.mains },
          { name: column.atOnce, num: true, cell: ({ loadW }) => measure(loadW, units.W) },
          { name: column.current, num: true, cell: ({ loadA }) => measure(loadA, units.A, 1) },
          { name: column.limit, num: true, cell: ({ limitA }) => measure(limitA, units.A) },
          {
            name: column.share,
            num: true,
            cell: ({ loadA, limitA, overLimit }) =>
              overLimit ? <b>{say.overLimit}</b> : measure((100 * loadA) / limitA, "%"),
          },
          {
            name: column.leak,
            cell: ({ tripsOnLeakMA }) => (tripsOnLeakMA === null ? say.noLeak : measure(tripsOnLeakMA, units.mA)),
          },
          {
            name: column.afterCut,
            cell: ({ staysOpenAfterCut }) => (staysOpenAfterCut ? say.staysOpen : say.comesBack),
          },
        ]}
      />
    </Section>
  );
}

function Sockets({ sheet }: { readonly sheet: SetUpSheet }) {
  return (
    <Section title={say.sockets}>
      <Table
        name={say.sockets}
        rows={sheet.sockets}
        keyOf={({ device }) => device}
        columns={[
          { name: column.plug, cell: ({ device }) => <Name id={device} /> },
          {
            name: column.kind,
            cell: ({ kind }) => (words.deviceKind as Readonly<Record<string, string>>)[kind] ?? kind,
          },
          { name: column.system, cell: ({ system }) => <Name id={system} /> },
          { name: column.on, cell: ({ circuit }) => circuit ?? say.cells },
          { name: column.power, num: true, cell: ({ loadW }) => measure(loadW, units.W) },
          { name: column.current, num: true, cell: ({ loadA }) => measure(loadA, units.A, 2) },
          { name: column.hub, cell: ({ hub }) => hub ?? say.straight },
          {
            name: column.falls,
            cell: ({ withoutHub }) => (withoutHub === null ? words.field.alwaysPlugged : say.falls[withoutHub]),
          },
          { name: column.hours, cell: ({ hours }) => (hours === "" ? say.always : hours) },
        ]}
      />
    </Section>
  );
}

function Batteries({ sheet }: { readonly sheet: SetUpSheet }) {
  return (
    <Section title={say.batteries}>
      <Table
        name={say.batteries}
        rows={sheet.batteries}
        keyOf={({ battery }) => battery}
        columns={[
          { name: column.battery, cell: ({ battery }) => <Name id={battery} /> },
          { name: column.on, cell: ({ on }) => on ?? say.nothing },
          { name: column.energy, num: true, cell: ({ energyWh }) => measure(energyWh, units.Wh) },
          { name: column.most, num: true, cell: ({ powerW }) => measure(powerW, units.W) },
          { name: column.feeds, cell: ({ feeds }) => (feeds.length === 0 ? say.nothing : feeds.join(", ")) },
          { name: column.power, num: true, cell: ({ loadW }) => measure(loadW, units.W) },
          { name: column.lasts, num: true, cell: ({ lastsH }) => (lastsH === null ? "" : span(lastsH * 60)) },
          { name: column.starts, cell: ({ startsItself }) => (startsItself ? say.byItself : say.byHand) },
        ]}
      />
    </Section>
  );
}

function Hubs({ sheet }: { readonly sheet: SetUpSheet }) {
  return (
    <Section title={say.hubs}>
      <Table
        name={say.hubs}
        rows={sheet.hubs}
        keyOf={({ hub }) => hub}
        columns={[
          { name: column.hubName, cell: ({ hub }) => <Name id={hub} /> },
          { name: column.on, cell: ({ on }) => on ?? say.cells },
          { name: column.reads, num: true, cell: ({ readsEveryS }) => span(readsEveryS / 60) },
          {
            name: column.sends,
            cell: ({ sendsOver }) => (sendsOver.length === 0 ? say.noWayOut : sendsOver.join(", ")),
          },
          {
            name: column.helps,
            cell: ({ watchdog, siren }) =>
              [watchdog ? say.watchdog : "", siren ? say.siren : ""].filter((text) => text !== "").join(", ") ||
              say.nothing,
          },
        ]}
      />
    </Section>
  );
}

function Ladder({ rungs }: { readonly rungs: readonly Rung[] }) {
  if (rungs.length === 0) return <p>{say.nobody}</p>;
  return (
    <ol>
      {rungs.map(({ person, afterMin, over }) => (
        <li key={person}>
          {over.length === 0
            ? `${person} ${say.notReached}`
            : say.rung(person, afterMin === 0 ? say.atOnceTold : say.after(span(afterMin)), over.join(", "))}
        </li>
      ))}
    </ol>
  );
}
