/** Chart paper or night bridge. The system's wish holds until someone presses the switch; then theirs, in this browser. */
const KEY = "slackwater.theme";

type Theme = "light" | "dark";

/** Call before the first paint. */
export function applyChosenTheme(): void {
  const chosen = storage()?.getItem(KEY);
  if (chosen === "light" || chosen === "dark") document.documentElement.dataset.theme = chosen;
}

export function switchTheme(): void {
  const next: Theme = shownTheme() === "dark" ? "light" : "dark";
  document.documentElement.dataset.theme = next;
  storage()?.setItem(KEY, next);
}

function shownTheme(): Theme {
  const chosen = document.documentElement.dataset.theme;
  if (chosen === "light" || chosen === "dark") return chosen;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

/** Null where the browser keeps nothing for this page: the switch then lasts until the page is left. */
function storage(): Storage | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}
