/**
 * `npm test [-- STEP ...]`: every check there is, from a fresh clone. A step that fails does not stop the next one,
 * so that one run shows all that is wrong. The last line reads "N passed, N failed": tests count one each, and every
 * other check counts as one.
 */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ensureChromium } from "./browser.mjs";
import { ensureDependencies } from "./dependencies.mjs";
import { root } from "./paths.mjs";
import { runTool } from "./tools.mjs";
import { ensureWebBuild } from "./web-build.mjs";

/** Name -> what to run; gives back how many passed and failed. In order: the quick ones first, and build before browser. */
const steps = {
  types: () =>
    check(
      ["tsc", "--noEmit"],
      ["tsc", "--noEmit", "-p", "tsconfig.web.json"],
      ["tsc", "--noEmit", "-p", "test/browser"],
    ),
  format: () => check(["biome", "check"]),
  lint: () => check(["eslint", "."]),
  arrows: () => tests("arrows"),
  unit: () => tests("unit"),
  schools: () => tests("schools"),
  "dead-code": () => check(["knip", "--no-progress", "--no-config-hints"]),
  build: () => check(["vite", "build", "--logLevel", "warn"]),
  browser: () => {
    const chromium = ensureChromium();
    ensureWebBuild();
    return tests("browser", { CHROMIUM: chromium });
  },
};

/** One check made of several commands: all are run, and one failure fails it. */
function check(...commands) {
  const codes = commands.map((command) => runTool(command));
  return codes.every((code) => code === 0) ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/** @param {string} project a project of vitest.config.ts */
function tests(project, environment = {}) {
  const folder = mkdtempSync(join(tmpdir(), "slackwater-test-"));
  try {
    const report = join(folder, "report.json");
    const code = runTool(
      ["vitest", "run", "--project", project, "--reporter=default", "--reporter=json", `--outputFile.json=${report}`],
      environment,
    );
    return count(JSON.parse(readFileSync(report, "utf8")), code);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A file that could not be loaded holds no test that could fail, and so counts as one failure itself. */
function count(report, code) {
  const unloaded = report.testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0);
  const failed = report.numFailedTests + unloaded.length;
  return { passed: report.numPassedTests, failed: code !== 0 && failed === 0 ? 1 : failed };
}

function runStep(name) {
  console.log(`\n== ${name}`);
  const startMs = performance.now();
  let outcome;
  try {
    outcome = steps[name]();
  } catch (error) {
    console.error(error.message);
    outcome = { passed: 0, failed: 1 };
  }
  const line = { name, ...outcome, seconds: (performance.now() - startMs) / 1000 };
  console.log(describe(line));
  return line;
}

function describe({ name, passed, failed, seconds }) {
  return `${failed === 0 ? "ok    " : "FAILED"} ${name.padEnd(10)} ${`${passed} passed, ${failed} failed`.padEnd(26)} ${seconds.toFixed(1)} s`;
}

function main(chosen) {
  const unknown = chosen.filter((name) => !Object.hasOwn(steps, name));
  if (unknown.length > 0) {
    console.error(`There is no step called "${unknown[0]}"; choose from: ${Object.keys(steps).join(", ")}.`);
    return 2;
  }
  process.chdir(root);
  try {
    ensureDependencies();
  } catch (error) {
    console.error(error.message);
    console.log("0 passed, 1 failed");
    return 1;
  }
  const lines = (chosen.length > 0 ? chosen : Object.keys(steps)).map(runStep);
  const passed = lines.reduce((sum, line) => sum + line.passed, 0);
  const failed = lines.reduce((sum, line) => sum + line.failed, 0);
  console.log(`\n${lines.map(describe).join("\n")}\n`);
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

process.exitCode = main(process.argv.slice(2));
