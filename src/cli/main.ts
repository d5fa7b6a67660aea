/** The command line: one verb a file. Parts are wired here and nowhere else. */
import { Command, CommanderError } from "commander";
import { ENGINE } from "../drills/index.ts";
import { addCheck } from "./check.ts";
import { addDrill } from "./drill.ts";
import { addRehearse } from "./rehearse.ts";
import { addRun } from "./run.ts";
import { addServe } from "./serve.ts";
import { addWater } from "./water.ts";

/** Exit codes: the work found something wrong; the command was not understood; our own fault. */
const EXIT = { usage: 2, defect: 70 } as const;

async function main(argv: readonly string[]): Promise<void> {
  const program = new Command("slackwater")
    .description("Rehearses what can go wrong with reef aquariums: a description of the place in, verdicts out.")
    .version(ENGINE)
    .showHelpAfterError()
    .exitOverride();
  for (const add of [addCheck, addDrill, addRun, addRehearse, addServe, addWater]) add(program);
  for (const command of program.commands) command.exitOverride().showHelpAfterError();
  try {
    await program.parseAsync(argv);
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    process.exitCode = error.exitCode === 0 ? 0 : EXIT.usage;
  }
}

// A reader that has seen enough (`| head`) is no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit(0);
});

main(process.argv).catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
  process.exitCode = EXIT.defect;
});
