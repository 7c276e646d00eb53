import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

/** The server as plain JavaScript: our own packages are compiled in, everything from the registry stays outside. */
export default defineConfig({
  root: here('.'),
  logLevel: 'warn',
  build: {
    ssr: true,
    outDir: here('dist'),
    emptyOutDir: true,
    target: 'node20',
    sourcemap: true,
    minify: false,
    // Nobody downloads it: the size of a file says nothing here.
    chunkSizeWarningLimit: 10_000,
    rollupOptions: {
      // The worker is found beside whatever starts it.
      output: { chunkFileNames: '[name]-[hash].js' },
      input: {
        main: here('src/main.ts'),
        'ledger-verify': here('src/supply/cartridges/ledger-verify.ts'),
        'planner-worker': here('src/planning/plans/planner-worker.ts'),
        'records-verify': here('src/cure/records/records-verify.ts'),
      },
    },
  },
  ssr: { noExternal: [/^@clampclock\//] },
})
