/** Becomes another command, as nearly as a process can: same terminal, same signals, same ending. */
import { spawn } from "node:child_process";
import { isatty } from "node:tty";

/** A terminal sends these to every process of the foreground job, so there the child has its copy already. */
const sentByTerminal = ["SIGINT", "SIGQUIT", "SIGHUP"];
const sentByOthers = ["SIGTERM"];

/**
 * Runs the command and, when it ends, ends this process in the same way. Does not return.
 *
 * @param {string} command path of the program
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 */
export function handOver(command, args, env = process.env) {
  const child = spawn(command, args, { stdio: "inherit", env });
  const onTerminal = [0, 1, 2].some((stream) => isatty(stream));
  for (const signal of sentByTerminal) process.on(signal, () => onTerminal || child.kill(signal));
  for (const signal of sentByOthers) process.on(signal, () => child.kill(signal));
  child.on("error", (error) => {
    console.error(`Cannot start ${command}: ${error.message}. Install Node 24, then run this again.`);
    process.exit(1);
  });
  child.on("exit", (code, signal) => {
    if (signal === null) process.exit(code ?? 1);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  });
}
