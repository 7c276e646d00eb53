import { readFile } from 'node:fs/promises'

const HASH = /\b[0-9a-f]{64}\b/gi

/**
 * The hashes that `--head` names, each time it is given: a hash, or a file with any number of them in its text, such as
 * a kept mail.
 *
 * @throws {Error} For another option, a missing value, a file that cannot be read or holds none.
 */
export async function keptHeads(argv: readonly string[]): Promise<string[]> {
  const heads: string[] = []
  for (let i = 0; i < argv.length; i += 2) {
    const [option, value] = [argv[i], argv[i + 1]]
    if (option !== '--head')
      throw new Error(
        `Unknown option ${option}. There is one: --head takes a kept hash, or a file with hashes in it.`,
      )
    if (value === undefined)
      throw new Error('--head needs a hash of 64 hexadecimal digits, or a file with some in it.')
    heads.push(...(await hashesOf(value)))
  }
  return [...new Set(heads)]
}

async function hashesOf(value: string): Promise<string[]> {
  if (/^[0-9a-f]{64}$/i.test(value)) return [value.toLowerCase()]
  const text = await readFile(value, 'utf8').catch(() => {
    throw new Error(`${value} is neither a hash of 64 hexadecimal digits nor a file that can be read.`)
  })
  const found = [...text.matchAll(HASH)].map(([hash]) => hash.toLowerCase())
  if (found.length === 0) throw new Error(`${value} has no hash of 64 hexadecimal digits in its text.`)
  return found
}
