/**
 * Four kinds of tests, run as projects: `arrows` (who may import whom), `unit` (beside the code, with the
 * property tests, and across rooms in test/), `schools` (both example schools rehearsed whole) and `browser` (a real
 * browser against a real server).
 */
import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

const oneMinuteMs = 60_000;

export default defineConfig({
  test: {
    coverage: { provider: "v8", include: ["src/**"], reporter: ["text"] },
    projects: [
      {
        test: { name: "arrows", environment: "node", include: ["test/arrows.test.ts"], testTimeout: oneMinuteMs },
      },
      {
        plugins: [react()],
        test: {
          name: "unit",
          environment: "node",
          include: ["src/**/*.test.{ts,tsx}", "test/**/*.test.ts"],
          exclude: ["test/arrows.test.ts", "test/schools.test.ts", "test/browser/**"],
          testTimeout: oneMinuteMs,
        },
      },
      {
        // Takes minutes and every thread, so it must not stand beside others.
        test: {
          name: "schools",
          environment: "node",
          include: ["test/schools.test.ts"],
          testTimeout: oneMinuteMs,
        },
      },
      {
        test: {
          name: "browser",
          environment: "node",
          include: ["test/browser/**/*.test.ts"],
          fileParallelism: false,
          testTimeout: 2 * oneMinuteMs,
          hookTimeout: 2 * oneMinuteMs,
        },
      },
    ],
  },
});
