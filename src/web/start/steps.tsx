import type { ReactNode } from "react";
import { use } from "react";
import { type FirstSiteAnswers, LIMITS, type PersonAnswers, type TankAnswers } from "../../server/contract/index.ts";
import { startWords as words } from "../words/start.ts";
import { Choice, Count, FieldContext, Row, TextField, Tick, Ticks } from "./fields.tsx";
import type { Conversation } from "./use-conversation.ts";

/** The groups of questions, in the order of `words.steps`; the last step asks nothing. */
export function Questions({ conversation }: { readonly conversation: Conversation }) {
  const { draft } = conversation;
  switch (draft.step) {
    case 0:
      return <PlaceStep {...conversation} />;
    case 1:
      return <EachTank conversation={conversation}>{waterOf}</EachTank>;
    case 2:
      return (
        <>
          <EachTank conversation={conversation}>{heatOf}</EachTank>
          <p className="sm ask-caution">{words.caution.heat}</p>
        </>
      );
    case 3:
      return (
        <>
          <EachTank conversation={conversation}>{flowOf}</EachTank>
          {draft.answers.tanks.some(({ topOff }) => topOff === "limewater") && (
            <p className="sm ask-caution">{words.caution.limewater}</p>
          )}
        </>
      );
    case 4:
      return <PowerStep {...conversation} />;
    default:
      return <PeopleStep {...conversation} />;
  }
}

/** The step at which a field is asked; 0 where it is asked nowhere. */
export function stepOfField(field: string): number {
  const key = field.split(".").at(-1) ?? "";
  if (field.startsWith("people.") || field === "away") return 5;
  if (field === "mains") return 4;
  if (["returnFlow", "waveFlow", "lightHours", "topOffVolume"].includes(key)) return 3;
  if (key === "heaterPower") return 2;
  return field.startsWith("tanks.") ? 1 : 0;
}

function PlaceStep({ draft: { answers }, start, change }: Conversation) {
  const { tanks } = answers;
  const resize = (count: number): void =>
    change({ tanks: Array.from({ length: count }, (_, index) => tanks[index] ?? start.anotherTank) });
  return (
    <>
      <Row>
        <TextField
          wide
          name="place"
          label={words.place}
          value={answers.place}
          onChange={(place) => change({ place })}
        />
        <Count
          name="tanks"
          label={words.tanks}
          from={1}
          to={LIMITS.tanks}
          value={tanks.length}
          inWords={words.tanksCount}
          onChange={resize}
        />
      </Row>
      <TextField
        name="zone"
        label={words.zone}
        note={words.zoneNote}
        value={answers.zone}
        list="zones"
        onChange={(zone) => change({ zone })}
      />
      <datalist id="zones">
        {Intl.supportedValuesOf("timeZone").map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
    </>
  );
}

interface TankProps {
  readonly tank: TankAnswers;
  /** "tanks.0" */
  readonly field: string;
  readonly isAlone: boolean;
  set(changes: Partial<TankAnswers>): void;
}

/** The same questions for each tank; where there are several, each under its name. */
function EachTank({
  conversation,
  children,
}: {
  readonly conversation: Conversation;
  children(props: TankProps): ReactNode;
}) {
  const { draft, change } = conversation;
  const { usual } = use(FieldContext);
  const { tanks } = draft.answers;
  const isAlone = tanks.length === 1;
  return tanks.map((tank, index) => {
    const field = `tanks.${index}`;
    const set = (changes: Partial<TankAnswers>): void =>
      change({ tanks: tanks.map((each, place) => (place === index ? { ...each, ...changes } : each)) });
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: tanks have no name of their own, and are added at the end only
      <section className="ask-part" key={index} aria-labelledby={isAlone ? undefined : `${field}-head`}>
        {!isAlone && (
          <h2 className="w" id={`${field}-head`}>
            {tank.name ?? usual[`${field}.name`] ?? ""}
          </h2>
        )}
        {children({ tank, field, isAlone, set })}
      </section>
    );
  });
}

function waterOf({ tank, field, isAlone, set }: TankProps): ReactNode {
  return (
    <>
      <Row>
        {!isAlone && (
          <TextField
            name={`${field}.name`}
            label={words.tankName}
            value={tank.name}
            onChange={(name) => set({ name })}
          />
        )}
        <TextField
          name={`${field}.volume`}
          label={words.volume}
          note={words.volumeNote}
          value={tank.volume}
          onChange={(volume) => set({ volume })}
        />
        <TextField
          name={`${field}.temperature`}
          label={words.temperature}
          value={tank.temperature}
          onChange={(temperature) => set({ temperature })}
        />
      </Row>
      <Choice
        name={`${field}.life`}
        legend={words.life}
        of={words.lifeOf}
        value={tank.life}
        onChange={(life) => set({ life })}
      />
      <Row>
        <Tick label={words.hasSump} value={tank.hasSump} onChange={(hasSump) => set({ hasSump })} />
        {tank.hasSump && (
          <TextField
            name={`${field}.sumpVolume`}
            label={words.sumpVolume}
            value={tank.sumpVolume}
            onChange={(sumpVolume) => set({ sumpVolume })}
          />
        )}
      </Row>
    </>
  );
}

function heatOf({ tank, field, set }: TankProps): ReactNode {
  return (
    <>
      <Row>
        <Count
          name={`${field}.heaters`}
          label={words.heaters}
          from={0}
          to={LIMITS.heaters}
          value={tank.heaters}
          inWords={words.heatersCount}
          onChange={(heaters) => set({ heaters })}
        />
        {tank.heaters > 0 && (
          <TextField
            name={`${field}.heaterPower`}
            label={words.heaterPower}
            value={tank.heaterPower}
            onChange={(heaterPower) => set({ heaterPower })}
          />
        )}
      </Row>
      {tank.heaters > 0 && (
        <Choice
          name={`${field}.heaterSwitch`}
          legend={words.heaterSwitch}
          of={words.heaterSwitchOf}
          value={tank.heaterSwitch}
          onChange={(heaterSwitch) => set({ heaterSwitch })}
        />
      )}
    </>
  );
}

function flowOf({ tank, field, set }: TankProps): ReactNode {
  return (
    <>
      <Row>
        <Count
          name={`${field}.wavePumps`}
          label={words.wavePumps}
          from={0}
          to={LIMITS.wavePumps}
          value={tank.wavePumps}
          inWords={words.heatersCount}
          onChange={(wavePumps) => set({ wavePumps })}
        />
        {tank.wavePumps > 0 && (
          <TextField
            name={`${field}.waveFlow`}
            label={words.waveFlow}
            value={tank.waveFlow}
            onChange={(waveFlow) => set({ waveFlow })}
          />
        )}
        {tank.hasSump && (
          <TextField
            name={`${field}.returnFlow`}
            label={words.returnFlow}
            note={words.returnNote}
            value={tank.returnFlow}
            onChange={(returnFlow) => set({ returnFlow })}
          />
        )}
      </Row>
      <Row>
        <Tick label={words.hasSkimmer} value={tank.hasSkimmer} onChange={(hasSkimmer) => set({ hasSkimmer })} />
        <Tick label={words.hasLight} value={tank.hasLight} onChange={(hasLight) => set({ hasLight })} />
        {tank.hasLight && (
          <TextField
            name={`${field}.lightHours`}
            label={words.lightHours}
            value={tank.lightHours}
            onChange={(lightHours) => set({ lightHours })}
          />
        )}
      </Row>
      <Choice
        name={`${field}.topOff`}
        legend={words.topOff}
        of={words.topOffOf}
        value={tank.topOff}
        onChange={(topOff) => set({ topOff })}
      />
      {tank.topOff !== "by-hand" && (
        <>
          <TextField
            name={`${field}.topOffVolume`}
            label={words.topOffVolume}
            value={tank.topOffVolume}
            onChange={(topOffVolume) => set({ topOffVolume })}
          />
          <Choice
            name={`${field}.topOffSwitch`}
            legend={words.topOffSwitch}
            of={words.topOffSwitchOf}
            value={tank.topOffSwitch}
            onChange={(topOffSwitch) => set({ topOffSwitch })}
          />
        </>
      )}
      <Choice
        name={`${field}.dosing`}
        legend={words.dosing}
        of={words.dosingOf}
        value={tank.dosing}
        onChange={(dosing) => set({ dosing })}
      />
    </>
  );
}

function PowerStep({ draft: { answers }, change, lastGood }: Conversation) {
  // A heater or a top-off may need a hub that nobody has ticked.
  const tells = answers.hub || answers.leakSensor || (lastGood?.site?.hubs.length ?? 0) > 0;
  return (
    <>
      <Choice
        name="plugging"
        legend={words.plugging}
        of={words.pluggingOf}
        value={answers.plugging}
        onChange={(plugging) => change({ plugging })}
      />
      <TextField name="mains" label={words.mains} value={answers.mains} onChange={(mains) => change({ mains })} />
      <fieldset className="ask-choice lines">
        <legend>{words.batteries}</legend>
        <Tick label={words.airBattery} value={answers.airBattery} onChange={(airBattery) => change({ airBattery })} />
        <Tick
          label={words.routerBattery}
          value={answers.routerBattery}
          onChange={(routerBattery) => change({ routerBattery })}
        />
      </fieldset>
      <fieldset className="ask-choice lines">
        <legend>{words.watching}</legend>
        <Tick label={words.hub} value={answers.hub} onChange={(hub) => change({ hub })} />
        <Tick label={words.leakSensor} value={answers.leakSensor} onChange={(leakSensor) => change({ leakSensor })} />
        {tells && answers.messages !== "beep" && (
          <Tick
            label={words.silenceWatch}
            value={answers.silenceWatch}
            onChange={(silenceWatch) => change({ silenceWatch })}
          />
        )}
      </fieldset>
      {tells && (
        <Choice
          name="messages"
          legend={words.messages}
          of={words.messagesOf}
          value={answers.messages}
          onChange={(messages) => change({ messages })}
        />
      )}
      <p className="sm ask-caution">{words.caution.power}</p>
    </>
  );
}

function PeopleStep({ draft: { answers }, start, change }: Conversation) {
  const { usual } = use(FieldContext);
  const { people } = answers;
  return (
    <>
      {people.map((person, index) => {
        const field = `people.${index}`;
        const set = (changes: Partial<PersonAnswers>): void =>
          change({ people: people.map((each, place) => (place === index ? { ...each, ...changes } : each)) });
        const name = person.name ?? usual[`${field}.name`] ?? "";
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: people have no name of their own until they are given one
          <section className="ask-part" key={index} aria-labelledby={`${field}-head`}>
            <div className="ask-head">
              <h2 id={`${field}-head`}>{words.person(index + 1)}</h2>
              {index > 0 && (
                <button
                  className="textual"
                  type="button"
                  onClick={() => change({ people: people.filter((_, place) => place !== index) })}
                >
                  {words.removePerson(name)}
                </button>
              )}
            </div>
            <PersonFields person={person} field={field} set={set} />
          </section>
        );
      })}
      {people.length < LIMITS.people && (
        <button className="btn" type="button" onClick={() => change({ people: [...people, start.anotherPerson] })}>
          {words.addPerson}
        </button>
      )}
      <TextField wide name="away" label={words.away} value={answers.away} onChange={(away) => change({ away })} />
    </>
  );
}

function PersonFields({
  person,
  field,
  set,
}: {
  readonly person: FirstSiteAnswers["people"][number];
  readonly field: string;
  set(changes: Partial<PersonAnswers>): void;
}) {
  return (
    <>
      <Row>
        <TextField
          name={`${field}.name`}
          label={words.personName}
          value={person.name}
          onChange={(name) => set({ name })}
        />
        <TextField
          name={`${field}.asleep`}
          label={words.asleep}
          value={person.asleep}
          onChange={(asleep) => set({ asleep })}
        />
        <TextField
          name={`${field}.travel`}
          label={words.travel}
          value={person.travel}
          onChange={(travel) => set({ travel })}
        />
      </Row>
      <Ticks
        name={`${field}.reachedBy`}
        legend={words.reachedBy}
        of={words.reachOf}
        note={words.reachNote}
        value={person.reachedBy}
        onChange={(reachedBy) => set({ reachedBy })}
      />
      <Choice
        name={`${field}.whereabouts`}
        legend={words.whereabouts}
        of={words.whereaboutsOf}
        value={person.whereabouts}
        onChange={(whereabouts) => set({ whereabouts })}
      />
      <Choice
        name={`${field}.can`}
        legend={words.can}
        of={words.canOf}
        value={person.can}
        onChange={(can) => set({ can })}
      />
    </>
  );
}
