import { flushSync } from "react-dom";

/**
 * Pictures are drawn for the width that they are shown at, so paper needs a drawing of its own: for as long as the page is
 * being printed the whole of it is laid out at the width of the sheet, and everything that measures itself does so again.
 */
export function preparePrint(): void {
  addEventListener("beforeprint", () => {
    document.documentElement.classList.add("for-paper");
    flushSync(() => dispatchEvent(new Event("measure")));
  });
  addEventListener("afterprint", () => {
    document.documentElement.classList.remove("for-paper");
    dispatchEvent(new Event("measure"));
  });
}
