// The page as four files with fixed names, which the build puts into the program. Nothing is fetched from anywhere else.
import { defineConfig } from 'vite';

export default defineConfig({
  base: './',
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact' },
  build: {
    target: 'es2022',
    modulePreload: false,
    reportCompressedSize: false,
    rollupOptions: {
      output: {
        inlineDynamicImports: true,
        entryFileNames: 'page.js',
        assetFileNames: (asset) => (asset.names?.some((name) => name.endsWith('.css')) ? 'page.css' : '[name][extname]'),
      },
    },
  },
});
