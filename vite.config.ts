import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The window's pages: built once, served by the service from `dist/renderer`. */
export default defineConfig({
  root: 'renderer',
  plugins: [react()],
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    target: 'chrome120',
    // an inlined script or font would need a hole in the content security policy
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 4000,
  },
});
