/**
 * Server: the app and its answers over HTTP, on this machine only.
 *
 * Static pages, a JSON API, a live stream of the rehearsal, a watch on the open site file. It rehearses nothing:
 * the engine comes through a port from whoever starts it. Looks down on: planning, drills (types), site. Never heard of: web.
 */
export type {
  Clock,
  DrillOptions,
  Engine,
  ReadSite,
  RehearsalProgress,
  RehearseOptions,
  SiteReading,
} from "./engine-port.ts";
export type { RunningServer, ServerParts } from "./start-server.ts";
export { buildServer, startServer } from "./start-server.ts";
