type Values = Readonly<Record<string, unknown>> | undefined

/** Fills `:name` parameters and appends the query, leaving out what is not given or empty. */
export function urlOf(path: string, params: Values, query: Values): string {
  const filled = path.replaceAll(/:(\w+)/g, (_, name: string) => {
    const value = params?.[name]
    if (typeof value !== 'string' || value === '') throw new TypeError(`${path} needs the parameter ${name}`)
    return encodeURIComponent(value)
  })
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query ?? {})) {
    if (typeof value === 'number' || (typeof value === 'string' && value !== '')) search.set(name, `${value}`)
  }
  const text = search.toString()
  return text === '' ? filled : `${filled}?${text}`
}
