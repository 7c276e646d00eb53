import type * as contracts from '@clampclock/contracts'
import type { RouteContract, WireResultOf } from '@clampclock/contracts'
import type * as z from 'zod'

/** The contracts' things as they are on the wire: instants are ISO 8601 text. */
export type Alert = z.input<typeof contracts.Alert>
export type AccessToken = z.input<typeof contracts.AccessToken>
export type Attachment = z.input<typeof contracts.Attachment>
export type BayBoardRow = z.input<typeof contracts.BayBoardRow>
export type Bond = z.input<typeof contracts.Bond>
export type BondCurve = z.input<typeof contracts.BondCurve>
export type BondRecord = z.input<typeof contracts.BondRecord>
export type Booking = z.input<typeof contracts.Booking>
export type Cartridge = z.input<typeof contracts.Cartridge>
export type Dispenser = z.input<typeof contracts.Dispenser>
export type HelpAnswer = z.input<typeof contracts.Help>
export type Incident = z.input<typeof contracts.Incident>
export type Instrument = z.input<typeof contracts.Instrument>
export type Joint = z.input<typeof contracts.Joint>
export type Lot = z.input<typeof contracts.Lot>
export type CartridgeStorage = z.input<typeof contracts.CartridgeStorage>
export type LotStorage = z.input<typeof contracts.LotStorage>
export type LotRecall = z.input<typeof contracts.LotRecall>
export type OwnSession = z.input<typeof contracts.OwnSession>
export type Me = z.input<typeof contracts.Me>
export type MoveCheck = z.input<typeof contracts.MoveCheck>
export type OvenWindow = z.input<typeof contracts.OvenWindow>
export type Person = z.input<typeof contracts.Person>
export type CalendarFeed = z.input<typeof contracts.CalendarFeed>
export type DayException = z.input<typeof contracts.DayException>
export type Operation = z.input<typeof contracts.Operation>
export type PlanFigures = z.input<typeof contracts.PlanFigures>
export type Plan = z.input<typeof contracts.Plan>
export type PlanComparison = z.input<typeof contracts.PlanComparison>
export type PlanDetail = z.input<typeof contracts.PlanDetail>
export type PlannedOperation = z.input<typeof contracts.PlannedOperation>
export type RepairTemplate = z.input<typeof contracts.RepairTemplate>
export type ResourceTime = z.input<typeof contracts.ResourceTime>
export type WorkShift = z.input<typeof contracts.WorkShift>
export type Product = z.input<typeof contracts.Product>
export type ProductSheet = z.input<typeof contracts.ProductSheet>
export type ProductSupply = z.input<typeof contracts.ProductSupply>
export type PurchaseOrder = z.input<typeof contracts.PurchaseOrder>
export type Qualification = z.input<typeof contracts.Qualification>
export type RepairOrder = z.input<typeof contracts.RepairOrder>
export type RepairOrderDetail = z.input<typeof contracts.RepairOrderDetail>
export type ReplenishmentLine = z.input<typeof contracts.ReplenishmentLine>
export type ReplenishmentPolicy = z.input<typeof contracts.ReplenishmentPolicy>
export type Reservation = z.input<typeof contracts.Reservation>
export type Resource = z.input<typeof contracts.Resource>
export type Sensor = z.input<typeof contracts.Sensor>
export type Shipment = z.input<typeof contracts.Shipment>
export type Shop = z.input<typeof contracts.Shop>
export type ShopOverview = z.input<typeof contracts.ShopOverview>
export type Supplier = z.input<typeof contracts.Supplier>
export type StockCount = z.input<typeof contracts.StockCount>
export type Webhook = z.input<typeof contracts.Webhook>
export type StockMovement = z.input<typeof contracts.StockMovement>
export type Task = z.input<typeof contracts.Task>
export type TransferPlan = z.input<typeof contracts.TransferPlan>
export type WasteLine = z.input<typeof contracts.WasteLine>

export type ResultOf<C extends RouteContract> = WireResultOf<C>
