/** `slackwater serve FILE`: the app on this machine. */
import { availableParallelism } from "node:os";
import type { Command } from "commander";
import { duration, offThread, pairCensus, type RehearsalOptions, rehearse } from "../drills/index.ts";
import { type Engine, type RehearseOptions, startServer } from "../server/index.ts";
import { whole } from "./numbers.ts";
import { print } from "./open-site.ts";

const DEFAULT_PORT = 4780;

/** The engine that the server asks: everything on worker threads. */
function engineOf(onProgress: (done: number, total: number) => void): Engine {
  return {
    rehearse: (site, options) => rehearse(site, rehearsalOf(options, false, onProgress)),
    rehearsePairs: async (site, options) => ({
      census: pairCensus(site),
      report: await rehearse(
        site,
        rehearsalOf(options, true, () => undefined),
      ),
    }),
    drill: (site, faultIds, circumstance, { seed, stepMin }) =>
      offThread.drill({ site, seed, faultIds, circumstance, options: { stepMin, only: [], everywhere: false } }),
    settled: (site) => offThread.settled(site),
  };
}

function rehearsalOf(
  { seed, onProgress: tell, signal }: RehearseOptions,
  pairs: boolean,
  onProgress: (done: number, total: number) => void,
): RehearsalOptions {
  return {
    seed,
    threads: availableParallelism(),
    pairs,
    nowS: () => performance.now() / 1000,
    signal,
    onProgress: (done, total, fresh) => {
      onProgress(done, total);
      tell({ done, total, fresh });
    },
  };
}

export function addServe(program: Command): void {
  program
    .command("serve")
    .description("open the app for a site on this machine")
    .argument("<file>", "site file")
    .option("--port <n>", "port on 127.0.0.1", whole(0, 65_535), DEFAULT_PORT)
    .action(async (file: string, options: { port: number }) => {
      let shown = false;
      const startedS = performance.now() / 1000;
      const server = await startServer({
        file,
        port: options.port,
        engine: engineOf((done, total) => {
          if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${done} of ${total} drills`);
          if (done < total || shown) return;
          shown = true;
          const words = `${total} drills rehearsed in ${duration((performance.now() / 1000 - startedS) / 60)}`;
          process.stderr.write(process.stderr.isTTY ? `\r\u001b[K${words}\n` : `${words}\n`);
        }),
      });
      print(`Slackwater is at ${server.address} (Ctrl-C ends it)`);
      let closing = false;
      const end = () => {
        if (closing) return;
        closing = true;
        void server.close().then(() => process.exit(0));
      };
      process.on("SIGINT", end);
      process.on("SIGTERM", end);
    });
}
