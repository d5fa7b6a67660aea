/** Installs the packages when what is in node_modules is not what the lock asks for. */
import { existsSync, readFileSync } from "node:fs";
import { runNpm } from "./npm.mjs";
import { inCheckout } from "./paths.mjs";

/** Developer packages are included whatever NODE_ENV says: the web app is built on the machine that serves it. */
export function ensureDependencies() {
  if (installedMatchesLock()) return;
  console.error("Installing the packages that package-lock.json names (the first time takes about a minute).");
  runNpm(["ci", "--include=dev"]);
}

/**
 * Compares contents rather than file times, which a fresh clone or a copied folder would turn upside down.
 * Packages for other systems are in the lock, marked optional, and rightly missing here.
 */
function installedMatchesLock() {
  const record = inCheckout("node_modules", ".package-lock.json");
  if (!existsSync(record)) return false;
  const installed = readPackages(record);
  return Object.entries(readPackages(inCheckout("package-lock.json"))).every(([path, wanted]) => {
    if (path === "") return true;
    const found = installed[path];
    return found === undefined ? wanted.optional === true : found.version === wanted.version;
  });
}

function readPackages(file) {
  return JSON.parse(readFileSync(file, "utf8")).packages;
}
