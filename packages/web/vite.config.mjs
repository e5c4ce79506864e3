/** Build of the page: one bundle, one worker, a service worker that keeps all of it for use without a network. */
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/** The core and the job file are pure: loading a file of them does nothing, so what is not named is left out. */
const pure = {
  treeshake: { moduleSideEffects: [{ test: /packages[\\/](?:core|jobs)[\\/]/, sideEffects: false }] },
};

export default defineConfig({
  root: import.meta.dirname,
  build: {
    target: 'es2022',
    // The policy allows no data: fonts, so nothing is inlined.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: pure,
  },
  worker: { format: 'es', rolldownOptions: pure },
  plugins: [
    react(),
    VitePWA({
      registerType: 'prompt',
      injectRegister: null,
      manifest: {
        name: 'Ampwright',
        short_name: 'Ampwright',
        description:
          'Why is this boat not charging? A few safe meter readings, and odds that mean what they say.',
        display: 'standalone',
        start_url: '/',
        background_color: '#f6f1e4',
        theme_color: '#f6f1e4',
        icons: [
          { src: '/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
          { src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,woff,woff2,svg,png,json}'],
        navigateFallback: 'index.html',
        cleanupOutdatedCaches: true,
        sourcemap: false,
      },
    }),
  ],
});
