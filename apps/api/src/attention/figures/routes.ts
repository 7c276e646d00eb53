import { figureRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindDocument } from '../../foundation/http/bind.ts'
import { figuresCsv, planFigures } from './figures.ts'

export async function figureRoutes(app: App): Promise<void> {
  bind(app, contracts.getPlanFigures, ({ tx, actor, query, now }) => planFigures(tx, actor, query, now))
  bindDocument(app, contracts.getPlanFiguresCsv, async ({ tx, actor, query, now }) =>
    figuresCsv(await planFigures(tx, actor, query, now)),
  )
}
