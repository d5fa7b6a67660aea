import type { FastifyReply } from "fastify";
import type { RehearsalDesk } from "./rehearsal-desk.ts";

/** At most one message in this time, ms: a rehearsal can finish hundreds of drills a second. */
const MESSAGE_GAP_MS = 200;
/** A comment in this time, ms, so that a closed lid or a lost page is found out. */
const HEARTBEAT_MS = 15_000;

/** Keeps open streams, so that closing the server can end them. */
export interface Streams {
  /** Sends the rehearsal as server-sent events, each with only the drills that this listener has not seen. */
  follow(desk: RehearsalDesk, reply: FastifyReply): void;
  closeAll(): void;
}

export function openStreams(): Streams {
  const endings = new Set<() => void>();

  function follow(desk: RehearsalDesk, reply: FastifyReply): void {
    reply.hijack();
    const out = reply.raw;
    out.writeHead(200, {
      "content-type": "text/event-stream; charset=utf-8",
      "cache-control": "no-store",
      "x-content-type-options": "nosniff",
    });
    let seen = { run: -1, count: 0 };
    let waiting: NodeJS.Timeout | null = null;

    const send = (): void => {
      waiting = null;
      const { run, count, body } = desk.message(seen);
      seen = { run, count };
      out.write(`data: ${JSON.stringify(body)}\n\n`);
    };
    const unsubscribe = desk.subscribe(() => {
      waiting ??= setTimeout(send, MESSAGE_GAP_MS);
    });
    const heartbeat = setInterval(() => out.write(": still here\n\n"), HEARTBEAT_MS);
    const end = (): void => {
      unsubscribe();
      clearInterval(heartbeat);
      if (waiting !== null) clearTimeout(waiting);
      endings.delete(end);
      out.end();
    };
    endings.add(end);
    out.on("close", end);
    send();
  }

  function closeAll(): void {
    for (const end of [...endings]) end();
  }

  return { follow, closeAll };
}
