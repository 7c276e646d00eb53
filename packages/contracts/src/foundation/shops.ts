import * as z from 'zod'
import { defineRoute } from './route.ts'
import { Id, Label, TimeZone, Version } from './values.ts'

export const Shop = z
  .object({
    id: Id,
    name: z.string(),
    timeZone: z.string(),
    temperatureUnit: z
      .enum(['C', 'F'])
      .describe('How people of this shop see temperatures; the wire is always degC'),
    version: Version,
  })
  .meta({ id: 'Shop' })
export type Shop = z.output<typeof Shop>

export const ResourceKind = z.enum(['bay', 'oven', 'clampSet', 'technician']).meta({ id: 'ResourceKind' })
export type ResourceKind = z.output<typeof ResourceKind>

/** What a bay or an oven has that not each of them has. */
export const BayAttribute = z.enum(['lift', 'frameBench', 'heat', 'dustFree']).meta({ id: 'BayAttribute' })
export type BayAttribute = z.output<typeof BayAttribute>

/** What a technician can do; an operation may ask for one of them. */
export const Skill = z
  .enum(['body', 'structural', 'aluminium', 'welding', 'paint', 'fitting'])
  .meta({ id: 'Skill' })
export type Skill = z.output<typeof Skill>

export const Resource = z
  .object({
    id: Id,
    shopId: Id,
    kind: ResourceKind,
    name: z.string(),
    capacity: z
      .number()
      .int()
      .describe('1 for a bay, an oven or a person; how many there are of a counted set'),
    personId: Id.nullable().describe('The person a technician resource stands for'),
    attributes: z.array(BayAttribute).describe('Of a bay or an oven'),
    skills: z.array(Skill).describe('Of a technician'),
    active: z.boolean(),
    version: Version,
  })
  .meta({ id: 'Resource' })
export type Resource = z.output<typeof Resource>

/** A dispenser (gun) takes certain cartridge forms; a cartridge that fits no gun in the shop is no stock. */
export const Dispenser = z
  .object({ id: Id, shopId: Id, name: z.string(), cartridgeForms: z.array(z.string()), active: z.boolean() })
  .meta({ id: 'Dispenser' })
export type Dispenser = z.output<typeof Dispenser>

export const StorageLocation = z
  .object({ id: Id, shopId: Id, name: z.string(), active: z.boolean() })
  .meta({ id: 'StorageLocation' })

const shopParams = z.object({ shopId: Id })
const Attributes = distinct(BayAttribute)
const Skills = distinct(Skill)

function distinct<Item extends z.ZodType<string>>(item: Item) {
  return z
    .array(item)
    .max(10)
    .refine((items) => new Set(items).size === items.length, 'names one of them twice')
}

const CartridgeForm = Label.max(40)

export const shopRoutes = {
  listShops: defineRoute({
    method: 'GET',
    path: '/v1/shops',
    operationId: 'listShops',
    tag: 'shops',
    summary: 'Shops that you may see',
    access: 'signedIn',
    status: 200,
    response: z.object({ items: z.array(Shop) }),
  }),
  addShop: defineRoute({
    method: 'POST',
    path: '/v1/shops',
    operationId: 'addShop',
    tag: 'shops',
    summary: 'Add a shop',
    access: 'manageChain',
    reach: 'chain',
    body: z.strictObject({
      name: Label,
      timeZone: TimeZone,
      temperatureUnit: z.enum(['C', 'F']).default('F'),
    }),
    status: 201,
    response: Shop,
  }),
  editShop: defineRoute({
    method: 'PATCH',
    path: '/v1/shops/:shopId',
    operationId: 'editShop',
    tag: 'shops',
    summary: 'Rename a shop or change its time zone or units',
    access: 'manageChain',
    params: shopParams,
    body: z.strictObject({
      name: Label.optional(),
      timeZone: TimeZone.optional(),
      temperatureUnit: z.enum(['C', 'F']).optional(),
    }),
    ifMatch: true,
    status: 200,
    response: Shop,
  }),
  listResources: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/resources',
    operationId: 'listResources',
    tag: 'shops',
    summary: 'Bays, ovens, clamp sets and technicians of a shop',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ items: z.array(Resource) }),
  }),
  addResource: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/resources',
    operationId: 'addResource',
    tag: 'shops',
    summary: 'Add a bay, oven, clamp set or technician',
    access: 'manageChain',
    params: shopParams,
    body: z
      .strictObject({
        kind: ResourceKind,
        name: Label,
        capacity: z.number().int().min(1).max(500).default(1),
        personId: Id.nullable().default(null),
        attributes: Attributes.default([]),
        skills: Skills.default([]),
      })
      .refine((r) => r.attributes.length === 0 || r.kind === 'bay' || r.kind === 'oven', {
        path: ['attributes'],
        error: 'are only for a bay or an oven',
      })
      .refine((r) => r.skills.length === 0 || r.kind === 'technician', {
        path: ['skills'],
        error: 'are only for a technician',
      })
      .refine((r) => r.kind === 'clampSet' || r.capacity === 1, {
        path: ['capacity'],
        error: 'must be 1 for a bay, an oven or a technician; only clamp sets are counted',
      }),
    status: 201,
    response: Resource,
  }),
  editResource: defineRoute({
    method: 'PATCH',
    path: '/v1/resources/:resourceId',
    operationId: 'editResource',
    tag: 'shops',
    summary: 'Rename a resource, say what it has or can do, or take it out of use',
    access: 'manageChain',
    params: z.object({ resourceId: Id }),
    body: z.strictObject({
      name: Label.optional(),
      attributes: Attributes.optional(),
      skills: Skills.optional(),
      active: z.boolean().optional(),
    }),
    ifMatch: true,
    status: 200,
    response: Resource,
  }),
  listDispensers: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/dispensers',
    operationId: 'listDispensers',
    tag: 'shops',
    summary: 'Dispensers (guns) of a shop and the cartridge forms they take',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ items: z.array(Dispenser) }),
  }),
  addDispenser: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/dispensers',
    operationId: 'addDispenser',
    tag: 'shops',
    summary: 'Add a dispenser',
    access: 'handleStock',
    params: shopParams,
    body: z.strictObject({ name: Label, cartridgeForms: z.array(CartridgeForm).min(1).max(20) }),
    status: 201,
    response: Dispenser,
  }),
  listStorageLocations: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/storageLocations',
    operationId: 'listStorageLocations',
    tag: 'shops',
    summary: 'Cabinets, shelves and refrigerators of a shop',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ items: z.array(StorageLocation) }),
  }),
  addStorageLocation: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/storageLocations',
    operationId: 'addStorageLocation',
    tag: 'shops',
    summary: 'Add a storage location',
    access: 'handleStock',
    params: shopParams,
    body: z.strictObject({ name: Label }),
    status: 201,
    response: StorageLocation,
  }),
}
