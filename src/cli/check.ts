/** `slackwater check FILE`: is it described right, and what was taken for granted. */
import type { Command } from "commander";
import { formatSiteError, readSiteFile } from "../site/index.ts";
import { print, printJson } from "./open-site.ts";
import { table } from "./table.ts";

/** Defaults that are listed for people; all are in `--json`. */
const SHOWN = 14;

export function addCheck(program: Command): void {
  program
    .command("check")
    .description("check a site file: errors with line and column, and the defaults that matter most to the verdicts")
    .argument("<file>", "site file")
    .option("--json", "answer as JSON")
    .action(async (file: string, options: { json?: boolean }) => {
      const { site, errors, defaults } = await readSiteFile(file);
      const listed = defaults.map((one) => ({
        where: `${one.part}.${one.key}`,
        value: one.value,
        why_it_matters: one.why,
      }));
      if (errors.length > 0) process.exitCode = 1;
      if (options.json) {
        const told = errors.map(({ file: path, line, column, where, message, hint }) => ({
          file: path,
          line,
          column,
          where,
          message,
          hint,
        }));
        printJson({ ok: site !== null, errors: told, defaults: listed });
        return;
      }
      if (!site) {
        for (const error of errors) print(formatSiteError(error));
        print(errors.length === 1 ? "1 error" : `${errors.length} errors`);
        return;
      }
      print(
        `${site.name}: ${counted(site.systems, "system")}, ${counted(site.devices, "device")}, ${counted(site.sensors, "sensor")}, ${counted(site.rules, "rule")}; no errors.`,
      );
      const telling = listed.filter((one) => one.why_it_matters !== "");
      if (telling.length === 0) return;
      print(`\nTaken for granted, most telling first (${Math.min(SHOWN, telling.length)} of ${telling.length}):`);
      print(
        table(
          telling.slice(0, SHOWN).map((one) => [`  ${one.where}`, one.value, one.why_it_matters]),
          ["left", "left", "left"],
        ),
      );
    });
}

function counted(parts: readonly unknown[], word: string): string {
  return `${parts.length} ${parts.length === 1 ? word : `${word}s`}`;
}
