/** The web app: draws what the program knows about one site. Starts here. */
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "@fontsource-variable/atkinson-hyperlegible-next/wght-italic.css";
import "./tokens.css";
import "./frame.css";
import "./board/board.css";
import "./timeline/timeline.css";
import "./site-picture/site-picture.css";
import "./draft/draft.css";
import "./site-edit/site-edit.css";
import { createRoot } from "react-dom/client";
import { App } from "./app/app.tsx";
import { reloadWhereViewsAreGone } from "./app/offline.ts";
import { preparePrint } from "./app/print.ts";
import { followProgram } from "./app/store.ts";
import { applyChosenTheme } from "./app/theme.ts";
import { followDraft } from "./draft/draft-store.ts";
import { takeMannerOfBrowser } from "./parts/manner.ts";

applyChosenTheme();
takeMannerOfBrowser();
preparePrint();
reloadWhereViewsAreGone();
followDraft();
followProgram();

const holder = document.getElementById("app");
if (holder === null) throw new Error('Cannot start: index.html has no element with the id "app"');
createRoot(holder).render(<App />);
