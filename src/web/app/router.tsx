import { type AnchorHTMLAttributes, type MouseEvent, useSyncExternalStore } from "react";

/** Where the reader is: a path of the app and what was chosen there. All of it stands in the address, so that it can be sent on. */
export interface Place {
  readonly path: string;
  readonly query: URLSearchParams;
}

const CHANGED = "placechange";
let shown: Place = read();

function read(): Place {
  return { path: location.pathname, query: new URLSearchParams(location.search) };
}

function subscribe(onChange: () => void): () => void {
  const update = (): void => {
    shown = read();
    onChange();
  };
  addEventListener("popstate", update);
  addEventListener(CHANGED, update);
  return () => {
    removeEventListener("popstate", update);
    removeEventListener(CHANGED, update);
  };
}

export function usePlace(): Place {
  return useSyncExternalStore(subscribe, () => shown);
}

/** Goes to an address of the app. `replace` for choices on a page, which "back" should not undo one by one. */
export function go(address: string, how: "push" | "replace" = "push"): void {
  if (how === "push") history.pushState(null, "", address);
  else history.replaceState(null, "", address);
  dispatchEvent(new Event(CHANGED));
  if (how === "push") scrollTo(0, 0);
}

/** An address of the app; what is empty is left out. */
export function address(path: string, query: Readonly<Record<string, string | null>> = {}): string {
  const chosen = new URLSearchParams(
    Object.entries(query).filter((entry): entry is [string, string] => entry[1] !== null && entry[1] !== ""),
  );
  const text = chosen.toString();
  return text === "" ? path : `${path}?${text}`;
}

export const drillAddress = (id: string): string => address("/drill", { id });

/** Whether the browser should be left to do what it does with a pressed link: open it elsewhere, say. */
export function isPlainClick(event: MouseEvent): boolean {
  return (
    event.button === 0 &&
    !event.metaKey &&
    !event.ctrlKey &&
    !event.shiftKey &&
    !event.altKey &&
    !event.defaultPrevented
  );
}

/** A link inside the app. */
export function Link({ to, onClick, ...rest }: { readonly to: string } & AnchorHTMLAttributes<HTMLAnchorElement>) {
  const follow = (event: MouseEvent<HTMLAnchorElement>): void => {
    onClick?.(event);
    if (!isPlainClick(event)) return;
    event.preventDefault();
    go(to);
  };
  return <a href={to} onClick={follow} {...rest} />;
}
