/** The direction of imports; docs/decisions/0102-layers.md says why. */
const only = (name, from, to) => ({
  name,
  severity: 'error',
  from: { path: from, pathNot: '\\.test\\.tsx?$' },
  to: { path: '^(apps|packages)/', pathNot: to },
})

/**
 * The modules of the service, lowest first; docs/architecture.md draws them. A module calls those before it, by their faces
 * (index.ts), and tells those behind it by events. The foundation and the demo, which is above all, have no face.
 */
const MODULES = ['foundation', 'work', 'supply', 'cure', 'planning', 'attention', 'demo']
const within = (modules) => `^apps/api/src/(${modules.join('|')})/`
const upward = MODULES.slice(0, -1).map((module, i) => ({
  name: `${module}-calls-downward`,
  severity: 'error',
  from: { path: within([module]) },
  to: { path: within(MODULES.slice(i + 1)) },
}))
const faces = MODULES.slice(1, -1).map((module) => ({
  name: `${module}-by-its-face`,
  severity: 'error',
  from: { path: '^apps/api/src/.+/', pathNot: within([module, 'demo']) },
  to: { path: within([module]), pathNot: `^apps/api/src/${module}/(index|pure)\\.ts$` },
}))

module.exports = {
  forbidden: [
    only('quantities-stands-alone', '^packages/quantities/', '^packages/quantities/'),
    only('planner-knows-no-shops', '^packages/planner/', '^packages/planner/'),
    only('contracts-stand-alone', '^packages/contracts/', '^packages/(contracts|messages|quantities)/'),
    only('messages-on-quantities', '^packages/messages/', '^packages/(messages|quantities)/'),
    only('cure-on-quantities', '^packages/cure/', '^packages/(cure|quantities)/'),
    only('stock-on-quantities', '^packages/stock/', '^packages/(stock|quantities)/'),
    only(
      'dashboard-sees-no-server',
      '^apps/dashboard/',
      '^(apps/dashboard|packages/(contracts|quantities|cure|messages))/',
    ),
    ...upward,
    ...faces,
    {
      name: 'modules-know-no-top',
      comment: 'app.ts, main.ts and reactions.ts put the modules together; only the demo starts by itself.',
      severity: 'error',
      from: { path: within(MODULES.slice(0, -1)) },
      to: { path: '^apps/api/src/[^/]+$' },
    },
    {
      name: 'no-cycles-of-folders',
      severity: 'error',
      scope: 'folder',
      from: { path: '^(apps/api|packages/contracts)/src/' },
      to: { circular: true },
    },
    {
      name: 'screens-stand-alone',
      comment: 'What two screens share is a feature; a shared part knows no screen.',
      severity: 'error',
      from: { path: '^apps/dashboard/src/screens/([^/]+)/' },
      to: { path: '^apps/dashboard/src/screens/', pathNot: '^apps/dashboard/src/screens/$1/' },
    },
    {
      name: 'parts-know-no-screen',
      severity: 'error',
      from: { path: '^apps/dashboard/src/(features|ui|lib|api)/' },
      to: { path: '^apps/dashboard/src/(screens|app)/' },
    },
    {
      name: 'schemas-stay-at-home',
      comment: 'Contracts reach the browser as types, and as the plain values of api/.',
      severity: 'error',
      from: { path: '^apps/dashboard/src/', pathNot: '^apps/dashboard/src/api/|\\.test\\.tsx?$' },
      to: { path: '^packages/contracts/|/zod/', dependencyTypesNot: ['type-only'] },
    },
    only('api-sees-no-screen', '^apps/api/', '^(apps/api|packages)/'),
    {
      name: 'packages-do-no-io',
      comment: 'Pure packages read no clock, file, socket or database.',
      severity: 'error',
      from: { path: '^packages/', pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'no-undeclared-packages',
      comment: 'What tests use is declared once, at the root.',
      severity: 'error',
      from: { pathNot: '(\\.test\\.tsx?|/testing\\.ts)$' },
      // The bundler's own ending for 'the address of this file' is no part of the package's name.
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown', 'unknown'], pathNot: '\\.wasm\\?url$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/|/generated/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.json'],
    },
  },
}
