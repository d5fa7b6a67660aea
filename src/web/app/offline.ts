/**
 * The page without its program. The service worker (made by the build, vite.config.ts) keeps the built app and the last good
 * answers; here the page is put under its care, and finds out when the program has become newer than the page.
 */

/** @param onTaken The worker has the page in its care for the first time: what was asked for before, it has not kept. */
export function keepForOffline(onTaken: () => void): void {
  // Browsers offer it to pages of this machine and to encrypted ones only.
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  const wasTaken = navigator.serviceWorker.controller !== null;
  if (!wasTaken) navigator.serviceWorker.addEventListener("controllerchange", onTaken, { once: true });
  addEventListener("load", () => {
    // Where it is refused, the page works as before, with the network.
    navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).catch(() => undefined);
  });
}

/** Looks for a newer worker, which otherwise comes with the next page only. */
export async function renewKeeper(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  const registration = await navigator.serviceWorker.getRegistration();
  await registration?.update().catch(() => undefined);
}

/** Whether the program hands out another page by now than the one that is open. */
export async function isOutdated(): Promise<boolean> {
  const mine = document.querySelector<HTMLScriptElement>("script[type=module][src]")?.src;
  if (mine === undefined || !import.meta.env.PROD) return false;
  try {
    const answer = await fetch("/", { cache: "no-store" });
    if (!answer.ok) return false;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const src = page.querySelector("script[type=module][src]")?.getAttribute("src");
    return src !== null && src !== undefined && new URL(src, location.origin).href !== mine;
  } catch {
    return false; // silent programs are not newer
  }
}

/** A view of an outdated page may be gone from the program: then the newer page is loaded, at the same address. */
export function reloadWhereViewsAreGone(): void {
  addEventListener("vite:preloadError", (event) => {
    event.preventDefault();
    void isOutdated().then((outdated) => {
      if (outdated) location.reload();
    });
  });
}

const LAST_WORD = "slackwater.last-word";

/** When the program last said something, in earlier pages too; null where this browser does not know. */
export function lastWordKept(): number | null {
  try {
    const kept = Number(localStorage.getItem(LAST_WORD));
    return kept > 0 ? kept : null;
  } catch {
    return null;
  }
}

export function keepLastWord(ms: number): void {
  try {
    localStorage.setItem(LAST_WORD, String(ms));
  } catch {
    // Nothing is kept for this page: after a reload it says since when it knows.
  }
}
