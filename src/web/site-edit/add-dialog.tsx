import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import type { Described, FieldFacts, Site, WrittenValue } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { apply } from "../draft/draft-store.ts";
import { editWords } from "../words/site-edit.ts";
import { words } from "../words.ts";
import { FieldRow, messageOf } from "./field-row.tsx";
import { fieldsInOrder, keyOf } from "./important.ts";
import { namesOfKinds } from "./names-of-kinds.ts";
import { editsOf, type NewPart } from "./new-part.ts";
import { freeName } from "./part-path.ts";
import { useFields } from "./use-fields.ts";

const say = editWords.dialog;

interface Sort {
  readonly kind: Described;
  readonly sort: string;
  readonly name: string;
}

const BODIES = ["display", "sump", "refugium", "frag", "reservoir", "container"] as const;
const DEVICES = Object.keys(words.deviceKind) as readonly (keyof typeof words.deviceKind)[];

const kindsOf = (...kinds: readonly Described[]): readonly Sort[] =>
  kinds.map((kind) => ({ kind, sort: "", name: editWords.kind[kind] }));

const GROUPS: readonly { readonly name: string; readonly sorts: readonly Sort[] }[] = [
  { name: say.groups.devices, sorts: DEVICES.map((sort) => ({ kind: "device", sort, name: words.deviceKind[sort] })) },
  {
    name: say.groups.water,
    sorts: [
      ...BODIES.map((sort): Sort => ({ kind: "body", sort, name: words.part[sort] })),
      ...kindsOf("system", "room"),
    ],
  },
  { name: say.groups.sensing, sorts: kindsOf("sensor", "rule") },
  { name: say.groups.power, sorts: kindsOf("circuit", "battery", "hub", "link") },
  { name: say.groups.people, sorts: kindsOf("person") },
];

/** Asks what a new part is, then the few things without which it says nothing, and adds it with one step. */
export function AddDialog({
  site,
  near,
  onClose,
}: {
  readonly site: Site;
  /** The body that is chosen, or that the chosen part is in. */
  readonly near: string | null;
  readonly onClose: () => void;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const [sort, setSort] = useState<Sort | null>(null);
  useEffect(() => box.current?.showModal(), []);
  return (
    <dialog className="dialog" ref={box} onClose={onClose} aria-label={say.title}>
      <h2>{sort === null ? say.title : `${say.title}: ${sort.name}`}</h2>
      {sort === null ? (
        <Sorts onChoose={setSort} onCancel={() => box.current?.close()} />
      ) : (
        <Form
          key={`${sort.kind} ${sort.sort}`}
          site={site}
          sort={sort}
          near={near}
          onBack={() => setSort(null)}
          onDone={(name) => {
            box.current?.close();
            go(address("/site", { part: name }), "replace");
          }}
        />
      )}
    </dialog>
  );
}

function Sorts({ onChoose, onCancel }: { readonly onChoose: (sort: Sort) => void; readonly onCancel: () => void }) {
  return (
    <>
      <p className="sm">{say.which}</p>
      {GROUPS.map(({ name, sorts }) => (
        <section key={name} className="sorts">
          <h3>{name}</h3>
          <ul>
            {sorts.map((sort) => (
              <li key={`${sort.kind} ${sort.sort}`}>
                <button className="btn" type="button" onClick={() => onChoose(sort)}>
                  {sort.name}
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
      <p className="ends">
        <button className="btn" type="button" onClick={onCancel}>
          {say.cancel}
        </button>
      </p>
    </>
  );
}

const DRAWS_FROM = ["top-off", "doser", "water-change"];
const USUAL_CONTENT: Readonly<Record<string, string>> = {
  "top-off": "fresh",
  doser: "alkalinity",
  "water-change": "salt",
};

function Form({
  site,
  sort,
  near,
  onBack,
  onDone,
}: {
  readonly site: Site;
  readonly sort: Sort;
  readonly near: string | null;
  readonly onBack: () => void;
  readonly onDone: (name: string) => void;
}) {
  const all = useFields();
  const system = site.bodies.find(({ id }) => id === near)?.system ?? site.systems[0]?.id ?? "";
  const [part, setPart] = useState<NewPart>(() => startOf(site, sort, near, system));
  // Fields commit when they are left, which may be in the same moment as the press on "Add it".
  const latest = useRef(part);
  const [problem, setProblem] = useState("");
  const change = (news: Partial<NewPart>): void => {
    latest.current = { ...latest.current, ...news };
    setPart(latest.current);
  };
  if (all === null) return <p className="sm">{editWords.loading}</p>;
  const fields = asked(all[sort.kind], sort);
  const home = site.bodies.find(({ id }) => id === part.said.in)?.system ?? system;

  const add = async (): Promise<void> => {
    const made = latest.current;
    const label = sort.kind === "system" ? say.newSystem(made.name) : say.newPart(made.name);
    const outcome = await apply(label, editsOf(site, made));
    if (outcome.made) onDone(sort.kind === "system" ? `${made.name}-display` : made.name);
    else setProblem(outcome.answer === null ? outcome.message : messageOf(outcome.answer));
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        // After the field that is being left has said its value.
        setTimeout(() => void add());
      }}
    >
      <Labelled name={editWords.name} hint={say.nameHint}>
        {(id) => (
          <input
            id={id}
            className="value"
            value={part.name}
            onChange={(event) => change({ name: event.target.value })}
          />
        )}
      </Labelled>
      {sort.kind === "body" && (
        <Labelled name={say.system}>
          {(id) => (
            <Select
              id={id}
              value={part.system}
              options={site.systems.map((each) => each.id)}
              onChange={(to) => change({ system: to })}
            />
          )}
        </Labelled>
      )}
      {sort.kind === "system" && (
        <Labelled name={say.display}>
          {(id) => (
            <input
              id={id}
              className="value"
              value={part.displayVolume}
              onChange={(event) => change({ displayVolume: event.target.value })}
            />
          )}
        </Labelled>
      )}
      {fields.map((facts) => (
        <FieldRow
          key={keyOf(facts)}
          facts={facts}
          value={part.said[keyOf(facts)] ?? null}
          was={undefined}
          otherwise={facts.otherwise.replaceAll("`", "")}
          names={namesOfKinds(site, facts.names)}
          sensors={site.sensors.map(({ id }) => id)}
          devices={site.devices.map(({ id }) => id)}
          where=""
          editOf={() => []}
          onCommit={async (value: WrittenValue | null) => {
            const { [keyOf(facts)]: _old, ...rest } = latest.current.said;
            change({ said: value === null ? rest : { ...rest, [keyOf(facts)]: value } });
            return "";
          }}
        />
      ))}
      {sort.sort === "return-pump" && (
        <Labelled name={say.into}>
          {(id) => (
            <Select
              id={id}
              value={part.into}
              options={site.bodies
                .filter((body) => body.system === home && body.id !== part.said.in)
                .map((body) => body.id)}
              onChange={(into) => change({ into })}
            />
          )}
        </Labelled>
      )}
      {DRAWS_FROM.includes(sort.sort) && (
        <Container site={site} part={part} sort={sort.sort} home={home} onChange={change} />
      )}
      {problem !== "" && (
        <p className="sm problem" role="alert">
          {problem}
        </p>
      )}
      <p className="ends">
        <button className="btn" type="button" onClick={onBack}>
          {say.back}
        </button>
        <button className="btn main" type="submit">
          {say.add}
        </button>
      </p>
    </form>
  );
}

/** What is asked of a new part: what must be said, and the few things that matter most. */
function asked(fields: readonly FieldFacts[], { kind, sort }: Sort): readonly FieldFacts[] {
  const can = fields.filter(
    ({ onlyFor, path }) =>
      (onlyFor.length === 0 || onlyFor.some((each) => each === sort)) &&
      path[0] !== "role" &&
      !(kind === "device" && path[0] === "kind") &&
      !["own-float", "set-back"].includes(path[0]) &&
      !(DRAWS_FROM.includes(sort) && path[0] === "from"),
  );
  const none = {
    devices: [{ id: "", kind: sort }],
    bodies: [{ id: "", role: sort, holds: { kind: sort === "display" ? "salt" : "fresh" } }],
  } as unknown as Site;
  const { fields: inOrder, few } = fieldsInOrder(can, kind, none, "");
  const must = inOrder.filter(({ otherwise, path }) => otherwise === "" && path.length === 1);
  return [...new Set([...must, ...inOrder.slice(0, few)])];
}

function startOf(site: Site, { kind, sort }: Sort, near: string | null, system: string): NewPart {
  const stem = kind === "device" || kind === "body" ? `${system}-${sort}` : kind;
  const body = near ?? site.bodies[0]?.id ?? "";
  const said: Record<string, WrittenValue> =
    kind === "device"
      ? { in: body }
      : kind === "sensor"
        ? { measures: "temperature", in: body }
        : kind === "rule"
          ? { notice: "urgent" }
          : {};
  const into =
    site.bodies.find((each) => each.system === system && each.role === "display" && each.id !== body)?.id ?? "";
  const first = sort === "top-off" || sort === "doser" || sort === "water-change";
  const name = freeName(site, kind === "sensor" ? `${body}-temp` : stem);
  return {
    kind,
    sort,
    name,
    said,
    system,
    into,
    container: first ? { name: freeName(site, `${name}-can`), volume: "10 L", holds: USUAL_CONTENT[sort] } : null,
    displayVolume: "200 L",
  };
}

function Container({
  site,
  part,
  sort,
  home,
  onChange,
}: {
  readonly site: Site;
  readonly part: NewPart;
  readonly sort: string;
  readonly home: string;
  readonly onChange: (news: Partial<NewPart>) => void;
}) {
  const stores = site.bodies
    .filter((body) => body.system === home && (body.role === "reservoir" || body.role === "container"))
    .map(({ id }) => id);
  const { container } = part;
  const holds = Object.entries(say.holds).filter(
    ([content]) => sort === "doser" || content === "fresh" || content === "limewater",
  );
  return (
    <>
      <Labelled name={say.container}>
        {(id) => (
          <select
            id={id}
            className="btn value"
            value={container === null ? String(part.said.from ?? "") : ""}
            onChange={(event) =>
              event.target.value === ""
                ? onChange({
                    container: { name: freeName(site, `${part.name}-can`), volume: "10 L", holds: USUAL_CONTENT[sort] },
                  })
                : onChange({ container: null, said: { ...part.said, from: event.target.value } })
            }
          >
            <option value="">{say.newContainer}</option>
            {stores.map((store) => (
              <option key={store} value={store}>
                {store}
              </option>
            ))}
          </select>
        )}
      </Labelled>
      {container !== null && (
        <>
          <Labelled name={say.containerName}>
            {(id) => (
              <input
                id={id}
                className="value"
                value={container.name}
                onChange={(event) => onChange({ container: { ...container, name: event.target.value } })}
              />
            )}
          </Labelled>
          <Labelled name={say.containerVolume}>
            {(id) => (
              <input
                id={id}
                className="value"
                value={container.volume}
                onChange={(event) => onChange({ container: { ...container, volume: event.target.value } })}
              />
            )}
          </Labelled>
          {sort !== "water-change" && (
            <Labelled name={say.containerHolds}>
              {(id) => (
                <select
                  id={id}
                  className="btn value"
                  value={container.holds}
                  onChange={(event) => onChange({ container: { ...container, holds: event.target.value } })}
                >
                  {holds.map(([content, name]) => (
                    <option key={content} value={content}>
                      {name}
                    </option>
                  ))}
                </select>
              )}
            </Labelled>
          )}
        </>
      )}
    </>
  );
}

function Labelled({
  name,
  hint,
  children,
}: {
  readonly name: string;
  readonly hint?: string;
  readonly children: (id: string) => ReactNode;
}) {
  const id = useId();
  return (
    <div className="field edit">
      <div className="said">
        <label htmlFor={id}>{name}</label>
      </div>
      {children(id)}
      {hint !== undefined && (
        <div className="below">
          <p className="sm hint">{hint}</p>
        </div>
      )}
    </div>
  );
}

function Select({
  id,
  value,
  options,
  onChange,
}: {
  readonly id: string;
  readonly value: string;
  readonly options: readonly string[];
  readonly onChange: (value: string) => void;
}) {
  return (
    <select id={id} className="btn value" value={value} onChange={(event) => onChange(event.target.value)}>
      <option value="">{editWords.choose}</option>
      {options.map((option) => (
        <option key={option} value={option}>
          {option}
        </option>
      ))}
    </select>
  );
}
