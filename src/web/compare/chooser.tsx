import { address, go } from "../app/router.tsx";
import { compareWords } from "../words/compare.ts";
import type { With } from "./sides.ts";

/** Which two versions lie side by side. */
export function Chooser({
  chosen,
  files,
  open,
}: {
  readonly chosen: With;
  readonly files: readonly string[];
  readonly open: string;
}) {
  const value = typeof chosen === "string" ? chosen : (chosen?.file ?? "");
  return (
    <label className="compare-with noprint">
      <span className="lab">{compareWords.choose}</span>
      <select
        className="btn"
        value={value}
        onChange={(event) => go(address("/compare", { with: event.target.value }), "replace")}
      >
        {value === "" && <option value="">{compareWords.chooseNone}</option>}
        <option value="draft">{compareWords.withDraft}</option>
        <option value="before">{compareWords.withBefore}</option>
        {files
          .filter((file) => file !== open)
          .map((file) => (
            <option key={file} value={file}>
              {compareWords.withFile(file)}
            </option>
          ))}
      </select>
    </label>
  );
}
