// dependency-cruiser parses with TypeScript's API, which TypeScript 7 does not have: give it 5.9 under the same name.
// It asks by `require` for the version and by `import` for the compiler, so both ways are turned.
import Module, { register } from 'node:module'

const turned = (specifier) => specifier.replace(/^typescript(?=$|\/)/, 'typescript-api')

const resolveFilename = Module._resolveFilename
Module._resolveFilename = (request, ...rest) => resolveFilename(turned(request), ...rest)

const hook = `
const turned = ${turned.toString()}
export const resolve = (specifier, context, next) => next(turned(specifier), context)`
register(`data:text/javascript,${encodeURIComponent(hook)}`, import.meta.url)
