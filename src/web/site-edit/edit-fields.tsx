import type { DefaultUsed, Described, Site, SiteEdit, WrittenValue } from "../../server/contract/index.ts";
import { apply } from "../draft/draft-store.ts";
import { joinUnits } from "../parts/format.ts";
import { editWords } from "../words/site-edit.ts";
import { companionsOf } from "./companions.ts";
import { FieldRow, messageOf } from "./field-row.tsx";
import { fieldsInOrder, keyOf, keyWords } from "./important.ts";
import { namesOfKinds } from "./names-of-kinds.ts";
import { isSet, valueAt } from "./part-path.ts";
import { useFields } from "./use-fields.ts";
import { saidOf } from "./value-text.ts";

/** Everything that can be said about a part, the few that matter most first, each changed where it stands. */
export function EditFields({
  site,
  id,
  kind,
  path,
  written,
  fileWritten,
  defaults,
}: {
  readonly site: Site;
  readonly id: string;
  readonly kind: Described;
  readonly path: readonly (string | number)[];
  /** The draft, and the file, as written. */
  readonly written: WrittenValue | null;
  readonly fileWritten: WrittenValue | null;
  readonly defaults: readonly DefaultUsed[];
}) {
  const all = useFields();
  if (all === null) return <p className="sm">{editWords.loading}</p>;
  const { fields, few } = fieldsInOrder(all[kind], kind, site, id);
  const sensors = site.sensors.map((sensor) => sensor.id);
  const devices = site.devices.map((device) => device.id);
  const rows = fields.map((facts) => {
    const at = [...path, ...facts.path];
    const value = valueAt(written, at);
    const where = `${id}.${keyOf(facts)}`;
    const inFile = valueAt(fileWritten, at);
    const used = defaults.find(({ part, key }) => part === id && key === keyOf(facts).replaceAll(".", "-"));
    const plain = defaults.find(({ part, key }) => part === id && facts.path.length === 1 && key === facts.path[0]);
    const editOf = (next: WrittenValue | null): readonly SiteEdit[] => {
      if (next === null) return value === null ? [] : [{ op: "remove", path: at }];
      const block = facts.path.length > 1 ? facts.path[0] : path.length === 1 ? String(path[0]) : "";
      const holder = at.slice(0, -1);
      if (block === "" || isSet(valueAt(written, holder))) return [{ op: "set", path: at, value: next }];
      const begun = { ...companionsOf(site, id, block), [facts.path[facts.path.length - 1]]: next };
      return [{ op: "set", path: holder, value: begun }];
    };
    const commit = async (next: WrittenValue | null): Promise<string> => {
      const edits = editOf(next);
      if (edits.length === 0) return "";
      const label =
        next === null
          ? editWords.cleared(id, keyWords(facts))
          : editWords.set(id, keyWords(facts), joinUnits(saidOf(next)));
      const outcome = await apply(label, edits);
      if (outcome.made) return "";
      return outcome.answer === null ? outcome.message : messageOf(outcome.answer, where);
    };
    return (
      <FieldRow
        key={keyOf(facts)}
        facts={facts}
        value={value}
        was={JSON.stringify(value) === JSON.stringify(inFile) ? undefined : inFile}
        otherwise={(used ?? plain)?.value ?? facts.otherwise.replaceAll("`", "")}
        names={namesOfKinds(site, facts.names)}
        sensors={sensors}
        devices={devices}
        where={where}
        editOf={editOf}
        onCommit={commit}
      />
    );
  });
  const more = rows.slice(few);
  return (
    <div className="fields">
      {rows.slice(0, few)}
      {more.length > 0 && (
        <details className="more-fields">
          <summary>{editWords.moreFields(more.length)}</summary>
          {more}
        </details>
      )}
    </div>
  );
}
