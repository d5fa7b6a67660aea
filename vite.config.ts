/** Builds the web app from src/web into dist/web, which the server hands out. */
import { readFileSync } from "node:fs";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/** The ground of "chart paper" is what an installed app shows before its first paint. */
const paper = /--paper: (#[0-9a-f]{6});/.exec(
  readFileSync(new URL("src/web/tokens.css", import.meta.url), "utf8"),
)?.[1];

export default defineConfig({
  root: "src/web",
  plugins: [
    react(),
    VitePWA({
      injectRegister: false, // src/web/app/offline.ts does, since the content policy allows nothing inline
      manifest: {
        name: "Slackwater",
        short_name: "Slackwater",
        description: "Rehearses what can go wrong with a reef aquarium",
        lang: "en-GB",
        start_url: "/",
        scope: "/",
        display: "standalone",
        theme_color: paper,
        background_color: paper,
        icons: [
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
      workbox: {
        inlineWorkboxRuntime: true,
        skipWaiting: true,
        clientsClaim: true,
        globPatterns: ["**/*.{html,js,css,woff2,svg,png}"],
        // A page that is opened always comes from the server while there is one, so that it is never older than it.
        directoryIndex: null,
        navigateFallback: null,
        runtimeCaching: [
          {
            urlPattern: ({ request, url }) => request.mode === "navigate" && !url.pathname.startsWith("/api/"),
            handler: "NetworkOnly",
            options: { precacheFallback: { fallbackURL: "index.html" } },
          },
          {
            // Answers of the program, without its stream. No time limit: a slow answer is still newer than a kept one.
            // What is asked for again and again while it is at work (trials) is worth nothing later.
            urlPattern: ({ request, url, sameOrigin }) =>
              sameOrigin &&
              /^\/api\/(?!drill$|trials\/)/.test(url.pathname) &&
              request.mode !== "navigate" &&
              request.headers.get("accept") !== "text/event-stream",
            handler: "NetworkFirst",
            method: "GET",
            options: {
              cacheName: "answers",
              cacheableResponse: { statuses: [200] },
              expiration: { maxEntries: 60, purgeOnQuotaError: true },
            },
          },
          {
            // Timelines are a few megabytes each: those that were opened last.
            urlPattern: ({ url, sameOrigin }) => sameOrigin && url.pathname === "/api/drill",
            handler: "NetworkFirst",
            method: "GET",
            options: {
              cacheName: "drills",
              cacheableResponse: { statuses: [200] },
              expiration: { maxEntries: 12, purgeOnQuotaError: true },
            },
          },
        ],
      },
    }),
  ],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    // Nothing is inlined as a data: address, so that the server's content security policy can stay strict.
    assetsInlineLimit: 0,
  },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:4780" } },
});
