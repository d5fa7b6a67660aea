/** Builds the web app from src/web into dist/web, which the server hands out. */
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

export default defineConfig({
  root: "src/web",
  plugins: [react()],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    // Nothing is inlined as a data: address, so that the server's content security policy can stay strict.
    assetsInlineLimit: 0,
  },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:4780" } },
});
