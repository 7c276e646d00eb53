import type { Plugin } from 'vite'
import config from '../vitest.config.ts'
import { NAMED_CHANGES } from './named-changes.ts'

const change = NAMED_CHANGES.find(({ name }) => name === process.env['NAMED_CHANGE'])
if (!change) throw new Error('NAMED_CHANGE names no change: see tests/mutation/named-changes.json')
const { name, file, from, to } = change

/** Puts the fault into the one file as it is loaded; nothing on the disk is touched. */
const putIn: Plugin = {
  name: 'named-change',
  enforce: 'pre',
  transform(code, id) {
    if (!id.split('?')[0]!.endsWith(`/${file}`)) return
    if (code.split(from).length !== 2) throw new Error(`${file} does not hold the line exactly once: ${from}`)
    process.stderr.write(`put in: ${name}\n`)
    return { code: code.replace(from, () => to), map: null }
  },
}

export default {
  ...config,
  test: {
    ...config.test,
    reporters: ['default'],
    projects: config.test!.projects!.map((project) => ({ ...(project as object), plugins: [putIn] })),
  },
}
