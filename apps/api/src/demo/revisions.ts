import { addProductSheet, approveProductSheet, getProduct } from '../work/catalogue/products.ts'
import { isoDate } from '../foundation/http/dates.ts'
import { DEMO_PRODUCTS } from './products.ts'
import { hoursFrom, type World } from './world.ts'

const REVISION = 'C (invented)'

/**
 * What makers send: a revision that turned out slower, approved this morning while a bond of it cures, and one that waits
 * for the parts manager to compare it with the print.
 */
export async function addRevisions(world: World): Promise<void> {
  const { tx, now, partsManager } = world
  const slower = await propose(world, 'Boojum Structural 60', 1.2, 20, null)
  await approveProductSheet(tx, partsManager, slower, false, hoursFrom(now, -0.2))
  await propose(world, 'Snark Quick 20', 1.1, 3, isoDate(hoursFrom(now, 24 * 7)))
}

async function propose(
  { tx, now, owner, products }: World,
  name: string,
  factor: number,
  hoursAgo: number,
  validFrom: string | null,
) {
  const productId = products.find((product) => product.name === name)!.id
  const { sheet } = DEMO_PRODUCTS.find((product) => product.name === name)!
  const at = hoursFrom(now, -hoursAgo)
  const points = sheet!.points.map((point) => ({
    temperatureC: point.temperatureC,
    workTimeMinutes: point.workTimeMinutes,
    handlingTimeMinutes: Math.round(point.handlingTimeMinutes * factor),
    fullCureMinutes: point.fullCureMinutes,
  }))
  const issuedOn = isoDate(hoursFrom(now, -24 * 9))
  await addProductSheet(
    tx,
    owner,
    productId,
    { ...sheet!, revision: REVISION, issuedOn, points, validFrom },
    at,
  )
  const { sheets } = await getProduct(tx, productId, at)
  return { productId, sheetId: sheets.find(({ revision }) => revision === REVISION)!.id }
}
