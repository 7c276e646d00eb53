import { isDeepStrictEqual } from 'node:util'

interface Components {
  readonly schemas?: Readonly<Record<string, unknown>>
}

const ADDRESS = '#/components/schemas/'

/**
 * Every named schema comes in two: as it is sent (`…Input`) and as it is answered. Where both are the same only the
 * second stays, and what no path leads to goes.
 */
export function oneSchemaEach<Document extends { components?: object; paths?: object }>(
  document: Document,
): Document {
  const schemas = { ...(document.components as Components | undefined)?.schemas }
  const twins = sameAsAnswered(schemas)
  const told = <Part>(part: Part) =>
    mapAddresses(part, (name) => (twins.has(name) ? answeredName(name) : name)) as Part
  const paths = told(document.paths)
  const kept: Record<string, unknown> = {}
  const waiting = namesIn(paths)
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (name in kept) continue
    kept[name] = told(schemas[name])
    waiting.push(...namesIn(kept[name]))
  }
  const inOrder = Object.fromEntries(Object.entries(kept).toSorted(([a], [b]) => (a < b ? -1 : 1)))
  return { ...document, paths, components: { ...document.components, schemas: inOrder } }
}

const answeredName = (name: string) => name.replace(/Input$/, '')

/** Two that name each other's twins may be the same: all are taken to be, until a difference is found. */
function sameAsAnswered(schemas: Readonly<Record<string, unknown>>): Set<string> {
  const twins = new Set(
    Object.keys(schemas).filter((name) => name.endsWith('Input') && answeredName(name) in schemas),
  )
  for (;;) {
    const answered = (name: string) => (twins.has(name) ? answeredName(name) : name)
    const different = [...twins].filter(
      (name) =>
        !isDeepStrictEqual(
          mapAddresses(schemas[name], answered),
          mapAddresses(schemas[answeredName(name)], answered),
        ),
    )
    if (different.length === 0) return twins
    for (const name of different) twins.delete(name)
  }
}

function namesIn(part: unknown): string[] {
  const names: string[] = []
  mapAddresses(part, (name) => {
    names.push(name)
    return name
  })
  return names
}

/** A copy, in which each address of a named schema is another's. */
function mapAddresses(part: unknown, rename: (name: string) => string): unknown {
  if (Array.isArray(part)) return part.map((each) => mapAddresses(each, rename))
  if (typeof part !== 'object' || part === null) return part
  return Object.fromEntries(
    Object.entries(part).map(([key, value]) => [
      key,
      key === '$ref' && typeof value === 'string' && value.startsWith(ADDRESS)
        ? ADDRESS + rename(value.slice(ADDRESS.length))
        : mapAddresses(value, rename),
    ]),
  )
}
