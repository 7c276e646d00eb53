import { inEnglish } from '../../foundation/words/words.ts'
import { TemplateStep, type BodyOf, type operationRoutes, type RepairTemplate } from '@clampclock/contracts'
import * as z from 'zod'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { announce } from '../../foundation/live/hub.ts'
import { requirePrograms } from './bake-program.ts'
import { BUILT_IN_TEMPLATES } from './built-in-templates.ts'

const Steps = z.array(TemplateStep)

export async function listRepairTemplates(tx: Tx, shopId: string): Promise<RepairTemplate[]> {
  const rows = await tx.repairTemplate.findMany({ where: { shopId } })
  const own = rows.map(({ key, name, steps, setAside, version }): RepairTemplate => ({
    key,
    name,
    steps: Steps.parse(steps),
    isOwn: true,
    isBuiltIn: isBuiltIn(key),
    isSetAside: setAside,
    version,
  }))
  const untouched = BUILT_IN_TEMPLATES.filter(({ key }) => !own.some((each) => each.key === key)).map(
    (each): RepairTemplate => ({ ...each, isOwn: false, isBuiltIn: true, isSetAside: false, version: 0 }),
  )
  return [...own, ...untouched].toSorted((a, b) => inEnglish(a.name).localeCompare(inEnglish(b.name), 'en'))
}

function isBuiltIn(key: string): boolean {
  return BUILT_IN_TEMPLATES.some((each) => each.key === key)
}

/** `version` 0: the shop has none of its own under this key yet. */
export async function setRepairTemplate(
  tx: Tx,
  actor: Actor,
  shopId: string,
  key: string,
  { isSetAside, ...body }: BodyOf<typeof operationRoutes.setRepairTemplate>,
  version: number,
): Promise<RepairTemplate> {
  await requirePrograms(tx, shopId, body.steps)
  const organizationId = actor.organization.id
  const data = { ...body, setAside: isSetAside }
  const { count } =
    version === 0
      ? await tx.repairTemplate.createMany({
          data: { ...data, organizationId, shopId, key },
          skipDuplicates: true,
        })
      : await tx.repairTemplate.updateMany({
          where: { shopId, key, version },
          data: { ...data, version: { increment: 1 } },
        })
  if (count === 0) {
    const present = await tx.repairTemplate.findUnique({ where: { shopId_key: { shopId, key } } })
    requireVersion(count, present?.version ?? 0)
  }
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: null })
  return { ...body, key, isOwn: true, isBuiltIn: isBuiltIn(key), isSetAside, version: version + 1 }
}

export async function removeRepairTemplate(tx: Tx, actor: Actor, shopId: string, key: string): Promise<void> {
  const { count } = await tx.repairTemplate.deleteMany({ where: { shopId, key } })
  if (count === 0) throw notFound('template of its own in this shop', key)
  await announce(tx, { organizationId: actor.organization.id, shopId, topic: 'shops', subjectId: null })
}
