// How many rooms five jobs of the day walk through: follows every call from where a request or a job comes in, and counts
// the folders of capabilities (without the foundation) that it enters, and the steps back into one that it came from.
//
//   node tests/layers/walks.mjs
import { dirname, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript-api'

const root = fileURLToPath(new URL('../..', import.meta.url))
const src = resolve(root, 'apps/api/src')

const WALKS = {
  'reading to alert': ['cure/temperature/add-readings.ts#addReadings', 'attention/watch/watch.ts#watchOne'],
  'may I move it?': ['cure/bonds/lifecycle.ts#checkMove'],
  'receive by scan': ['supply/receiving/scan.ts#answerScan', 'supply/receiving/receive.ts#receiveLot'],
  'make a plan': ['planning/plans/runner.ts#planningQueue'],
  'publish a plan': ['planning/plans/publish.ts#publishPlan'],
  'cold night to flag': ['attention/watch/watch.ts#watchOne'],
}

const program = ts.createProgram([resolve(src, 'main.ts')], {
  allowImportingTsExtensions: true,
  noEmit: true,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  target: ts.ScriptTarget.ES2023,
  customConditions: ['import'],
})
const checker = program.getTypeChecker()

/** The room of a file: its folder, from `src` on; null outside and in the foundation. */
function roomOf(file) {
  const path = relative(src, dirname(file))
  return path === '' || /^(\.\.|foundation|generated)/.test(path) ? null : path
}

/** What a name stands for, behind imports and faces. */
function declarationOf(node) {
  let symbol = checker.getSymbolAtLocation(node)
  if (symbol && symbol.flags & ts.SymbolFlags.Alias) symbol = checker.getAliasedSymbol(symbol)
  const found = symbol?.valueDeclaration
  return found && (ts.isFunctionDeclaration(found) || ts.isMethodDeclaration(found)) ? found : undefined
}

/** Event names to those who hear of them, as reactions.ts lists them. */
const hearing = new Map()
const reactions = program.getSourceFile(resolve(src, 'reactions.ts'))
function readReactions(node) {
  if (ts.isCallExpression(node) && node.expression.getText() === 'on') {
    const [event, listener] = node.arguments
    const name = event.getText()
    hearing.set(name, [...(hearing.get(name) ?? []), declarationOf(listener)])
  }
  ts.forEachChild(node, readReactions)
}
readReactions(reactions)

function walk(entries) {
  const seen = new Set()
  const order = new Map()
  const steps = new Set()
  const enter = (declaration, from) => {
    const room = roomOf(declaration.getSourceFile().fileName)
    if (room !== null) {
      if (!order.has(room)) order.set(room, order.size)
      if (from !== null && from !== room) steps.add(`${from} > ${room}`)
    }
    if (seen.has(declaration)) return
    seen.add(declaration)
    const here = room ?? from
    const look = (node) => {
      if (ts.isIdentifier(node) && !ts.isDeclaration(node.parent)) {
        const next = declarationOf(node)
        if (next && next.getSourceFile().fileName.startsWith(src) && next !== declaration) enter(next, here)
        for (const listener of hearing.get(node.text) ?? []) if (listener) enter(listener, here)
      }
      ts.forEachChild(node, look)
    }
    if (declaration.body) look(declaration.body)
  }
  for (const entry of entries) {
    const [file, name] = entry.split('#')
    const source = program.getSourceFile(resolve(src, file))
    const found = source?.statements.find((each) => each.name?.text === name)
    if (!found) throw new Error(`${entry} is not there: mend WALKS`)
    enter(found, null)
  }
  const returns = [...steps].filter((step) => {
    const [from, to] = step.split(' > ')
    return order.get(to) < order.get(from) && steps.has(`${to} > ${from}`)
  })
  return { rooms: [...order.keys()], returns }
}

for (const [name, entries] of Object.entries(WALKS)) {
  const { rooms, returns } = walk(entries)
  console.log(`${name}: ${rooms.length} rooms, ${returns.length} returns`)
  console.log(`  ${rooms.join(', ')}`)
  if (returns.length > 0) console.log(`  back: ${returns.join('; ')}`)
}
