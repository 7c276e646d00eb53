import { TemplateStep, type BodyOf, type operationRoutes, type RepairTemplate } from '@clampclock/contracts'
import * as z from 'zod'
import type { Actor } from '../access/actor.ts'
import type { Tx } from '../database/database.ts'
import { notFound } from '../http/problem-error.ts'
import { announce } from '../live/hub.ts'
import { BUILT_IN_TEMPLATES } from './built-in-templates.ts'

const Steps = z.array(TemplateStep)

export async function listRepairTemplates(tx: Tx, shopId: string): Promise<RepairTemplate[]> {
  const rows = await tx.repairTemplate.findMany({ where: { shopId } })
  const own = rows.map(({ key, name, steps }): RepairTemplate => ({
    key,
    name,
    steps: Steps.parse(steps),
    isOwn: true,
  }))
  const untouched = BUILT_IN_TEMPLATES.filter(({ key }) => !own.some((each) => each.key === key))
  return [...own, ...untouched].toSorted((a, b) => a.name.localeCompare(b.name, 'en'))
}

export async function setRepairTemplate(
  tx: Tx,
  actor: Actor,
  shopId: string,
  key: string,
  body: BodyOf<typeof operationRoutes.setRepairTemplate>,
): Promise<RepairTemplate> {
  const organizationId = actor.organization.id
  await tx.repairTemplate.upsert({
    where: { shopId_key: { shopId, key } },
    create: { ...body, organizationId, shopId, key },
    update: body,
  })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: null })
  return { ...body, key, isOwn: true }
}

export async function removeRepairTemplate(tx: Tx, actor: Actor, shopId: string, key: string): Promise<void> {
  const { count } = await tx.repairTemplate.deleteMany({ where: { shopId, key } })
  if (count === 0) throw notFound('template of its own in this shop', key)
  await announce(tx, { organizationId: actor.organization.id, shopId, topic: 'shops', subjectId: null })
}
