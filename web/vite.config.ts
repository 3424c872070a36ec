import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

export default defineConfig({
  plugins: [svelte()],
  build: {
    outDir: "../src/cleatwright/web/pages",
    emptyOutDir: true,
    target: "es2022",
    // fonts are files of their own, so that the content policy needs no data addresses
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 700,
  },
});
