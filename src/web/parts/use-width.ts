import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** The width of an element in px, kept as it changes; 0 until it is known. */
export function useWidth<T extends HTMLElement>(): readonly [RefObject<T | null>, number] {
  const ref = useRef<T>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    setWidth(element.clientWidth);
    const measure = (): void => setWidth(element.clientWidth);
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    addEventListener("measure", measure);
    return () => {
      observer.disconnect();
      removeEventListener("measure", measure);
    };
  }, []);
  return [ref, width];
}

/** Whether a media query of the screen holds, kept as it changes. On paper none does: it has the widest layout. */
export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => holdsNow(query));
  useLayoutEffect(() => {
    const list = matchMedia(query);
    const update = (): void => setHolds(holdsNow(query));
    update();
    list.addEventListener("change", update);
    addEventListener("measure", update);
    return () => {
      list.removeEventListener("change", update);
      removeEventListener("measure", update);
    };
  }, [query]);
  return holds;
}

function holdsNow(query: string): boolean {
  return matchMedia(query).matches && !document.documentElement.classList.contains("for-paper");
}

/** The breakpoints of the frame, as the style sheets have them. */
export const NARROW = "(max-width: 959px)";
export const PHONE = "(max-width: 699px)";
export const COARSE = "(pointer: coarse)";
