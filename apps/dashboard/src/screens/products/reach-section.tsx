import { USUAL_WASTE_SHARE } from '@clampclock/cure'
import { Button } from '@mantine/core'
import { Printer } from 'lucide-react'
import { formatLength, formatRecordedVolume, formatShare } from '../../lib/measures.ts'
import type { Product } from '../../api/types.ts'
import { Section } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import styles from './reach.module.css'
import { beadName, metresText, reachRows, SKIM_WIDTHS_MM } from './reach.ts'
import { t } from '../../lib/reader.ts'

/** How far one cartridge goes: a table to hang beside the guns. */
export function ReachSection({ product }: { readonly product: Product }) {
  return (
    <div className={styles['reach']}>
      <Section title={t('products.howFarOneCartridgeOfGoes', { name: product.name })}>
        <p className={styles['soft']}>
          {t('products.jointFromOneCartridge', {
            content: formatRecordedVolume(product.cartridgeMl),
            nozzle: formatRecordedVolume(product.nozzleHoldUpMl),
            waste: formatShare(USUAL_WASTE_SHARE),
            film: formatLength(product.glassBeadMm),
          })}
        </p>
        <Table
          caption={t('products.metresOfJointForEachCartridge')}
          rows={reachRows(product)}
          rowKey={({ bead }) => beadName(bead)}
          columns={[
            { head: 'products.bead', cell: ({ bead }) => beadName(bead) },
            ...SKIM_WIDTHS_MM.map((width, column) => ({
              head: {
                text:
                  width === 0
                    ? t('products.beadAlone')
                    : t('products.skimCoatWide', { width: formatLength(width) }),
              },
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
          {t('products.printThisTable')}
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
