import { message } from '@clampclock/messages'
import type { BodyOf, Resource, ResourceKind, shopRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import type { Resource as ResourceRow } from '../../generated/prisma/client.ts'
import { invalidField, notFound } from '../problems/problem-error.ts'
import { requireVersion } from '../http/versions.ts'
import { announce } from '../live/hub.ts'

export async function listResources(tx: Tx, shopId: string): Promise<Resource[]> {
  return (await tx.resource.findMany({ where: { shopId }, orderBy: [{ kind: 'asc' }, { name: 'asc' }] })).map(
    toResource,
  )
}

export async function resourceById(tx: Tx, id: string): Promise<Resource> {
  const row = await tx.resource.findUnique({ where: { id } })
  if (!row) throw notFound('resource', id)
  return toResource(row)
}

export async function addResource(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof shopRoutes.addResource>,
): Promise<Resource> {
  if (body.personId && !(await tx.person.findUnique({ where: { id: body.personId } })))
    throw invalidField('body.personId', message('problem.nobodyOfChain'))
  const organizationId = actor.organization.id
  const row = await tx.resource.create({ data: { ...body, organizationId, shopId } })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: row.id })
  return toResource(row)
}

export async function editResource(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof shopRoutes.editResource>,
  version: number,
): Promise<Resource> {
  const before = await resourceById(tx, id)
  requireIn(actor, 'manageChain', before.shopId)
  if (body.attributes && body.attributes.length > 0 && before.kind !== 'bay' && before.kind !== 'oven')
    throw invalidField('body.attributes', message('setup-problem.bayOrOvenOnly'))
  if (body.skills && body.skills.length > 0 && before.kind !== 'technician')
    throw invalidField('body.skills', message('setup-problem.technicianOnly'))
  const { count } = await tx.resource.updateMany({
    where: { id, version },
    data: {
      ...(body.name === undefined ? {} : { name: body.name }),
      ...(body.attributes === undefined ? {} : { attributes: body.attributes }),
      ...(body.skills === undefined ? {} : { skills: body.skills }),
      ...(body.active === undefined ? {} : { active: body.active }),
      version: { increment: 1 },
    },
  })
  const resource = await resourceById(tx, id)
  requireVersion(count, resource.version)
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: before.shopId,
    topic: 'shops',
    subjectId: id,
  })
  return resource
}

export function toResource({
  id,
  shopId,
  kind,
  name,
  capacity,
  personId,
  attributes,
  skills,
  active,
  version,
}: ResourceRow): Resource {
  return {
    id,
    shopId,
    kind: kind as ResourceKind,
    name,
    capacity,
    personId,
    attributes: attributes as Resource['attributes'],
    skills: skills as Resource['skills'],
    active,
    version,
  }
}
