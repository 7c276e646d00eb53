import { USUAL_WASTE_SHARE } from '@clampclock/cure'
import { Button } from '@mantine/core'
import { Printer } from 'lucide-react'
import type { Product } from '../../api/types.ts'
import { Section } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import styles from './reach.module.css'
import { beadName, metresText, reachRows, SKIM_WIDTHS_MM } from './reach.ts'

/** How far one cartridge goes: a table to hang beside the guns. */
export function ReachSection({ product }: { readonly product: Product }) {
  return (
    <div className={styles['reach']}>
      <Section title={`How far one cartridge of ${product.name} goes`}>
        <p className={styles['soft']}>
          Metres of joint from {product.cartridgeMl} mL through one nozzle. Taken off:{' '}
          {product.nozzleHoldUpMl} mL that stay in the nozzle, and {USUAL_WASTE_SHARE * 100} % for purge and
          squeeze-out (common practice, no source). Skim coat {product.glassBeadMm} mm thick, as the glass
          beads. Data sheet and the vehicle maker's procedure say which bead.
        </p>
        <Table
          caption="Metres of joint for each cartridge"
          rows={reachRows(product)}
          rowKey={({ bead }) => beadName(bead)}
          columns={[
            { head: 'Bead', cell: ({ bead }) => beadName(bead) },
            ...SKIM_WIDTHS_MM.map((width, column) => ({
              head: width === 0 ? 'Bead alone' : `Skim coat ${width} mm wide`,
              number: true,
              cell: ({ metres }: { readonly metres: readonly number[] }) => metresText(metres[column] ?? 0),
            })),
          ]}
        />
        <Button
          className={styles['button']}
          variant="default"
          leftSection={<Printer size={16} aria-hidden />}
          onClick={printReach}
        >
          Print this table
        </Button>
      </Section>
    </div>
  )
}

/** Prints the table alone; the page prints whole from the browser's own menu. */
function printReach(): void {
  const { dataset } = document.documentElement
  dataset['print'] = 'reach'
  window.addEventListener('afterprint', () => delete dataset['print'], { once: true })
  window.print()
}
