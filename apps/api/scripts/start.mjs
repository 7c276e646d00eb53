// `npm start`: builds what is missing, then serves. Options and environment: README.md.
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Clampclock needs Node.js 20.19 or newer; this is ${process.version}.`)
  process.exit(1)
}
await import('./prepare.mjs')
process.env.NODE_ENV ??= 'production'
await import('../dist/main.js')
