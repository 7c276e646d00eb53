import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { transformWithOxc, type Plugin } from 'vite'

const WORKER = fileURLToPath(new URL('worker/worker.ts', import.meta.url))

/**
 * Writes the service worker, with the names of all that it keeps: another build has other names, so a browser that asks
 * for `/sw.js` sees by one byte that there is a new one.
 */
export function shellKept(): Plugin {
  return {
    name: 'shell-kept',
    apply: 'build',
    async generateBundle(_options, bundle) {
      const files = Object.keys(bundle)
        .filter((name) => /^assets\/.*\.(js|css)$/.test(name))
        .map((name) => `/${name}`)
        .sort()
      const source = await readFile(WORKER, 'utf8')
      const build = createHash('sha256')
        .update(JSON.stringify([files, source]))
        .digest('hex')
        .slice(0, 16)
      const { code } = await transformWithOxc(source, WORKER, { lang: 'ts' }, undefined)
      const script = `const SHELL = ${JSON.stringify({ build, files })}\n${code.replace(/^export \{\};?\s*$/m, '')}`
      this.emitFile({ type: 'asset', fileName: 'sw.js', source: script })
    },
  }
}
