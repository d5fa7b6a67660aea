/** `slackwater serve [FILE]`: the app on this machine. */
import { existsSync } from "node:fs";
import { dirname } from "node:path";
import type { Command } from "commander";
import { duration } from "../drills/index.ts";
import { startServer } from "../server/index.ts";
import { engineOnThreads } from "./engine.ts";
import { whole } from "./numbers.ts";
import { print } from "./open-site.ts";

const DEFAULT_PORT = 4780;
const DEFAULT_FILE = "my-place.yaml";

export function addServe(program: Command): void {
  program
    .command("serve")
    .description("open the app for a site on this machine")
    .argument("[file]", "site file; where there is none yet, the app asks a few questions and writes it", DEFAULT_FILE)
    .option("--port <n>", "port on 127.0.0.1", whole(0, 65_535), DEFAULT_PORT)
    .action(async (file: string, options: { port: number }) => {
      if (!existsSync(dirname(file))) {
        process.stderr.write(`Cannot open ${file}: there is no folder ${dirname(file)}; make it first\n`);
        process.exitCode = 1;
        return;
      }
      const isThere = existsSync(file);
      let shown = false;
      const startedS = performance.now() / 1000;
      const server = await startServer({
        file,
        port: options.port,
        engine: engineOnThreads((done, total) => {
          if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${done} of ${total} drills`);
          if (done < total || shown) return;
          shown = true;
          const words = `${total} drills rehearsed in ${duration((performance.now() / 1000 - startedS) / 60)}`;
          process.stderr.write(process.stderr.isTTY ? `\r\u001b[K${words}\n` : `${words}\n`);
        }),
      });
      if (!isThere) print(`There is no ${file} yet: the app begins with a few questions and writes it.`);
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
