import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** The API serves the built files; while developing, the API's paths are passed on to it. */
const api = process.env['CLAMPCLOCK_API'] ?? 'http://localhost:3000'

export default defineConfig({
  plugins: [react()],
  server: {
    port: 5173,
    proxy: { '/v1': api, '/health': api, '/openapi.json': api, '/docs': api },
  },
  build: {
    outDir: 'dist',
    target: 'es2022',
    // The shared libraries come to half a megabyte, 160 kB as it is sent, once.
    chunkSizeWarningLimit: 700,
    rolldownOptions: {
      output: {
        // What several screens share goes into two files: a phone in the cabinet aisle waits for each request.
        codeSplitting: {
          groups: [
            { name: 'vendor', test: /node_modules/, minShareCount: 4 },
            { name: 'parts', test: /packages\/|src\/(api|lib|ui)\//, minShareCount: 4 },
          ],
        },
      },
    },
  },
})
