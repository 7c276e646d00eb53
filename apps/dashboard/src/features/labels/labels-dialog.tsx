import { Button, Group, Modal, NativeSelect, NumberInput, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { LabelSheet } from '@clampclock/contracts'
import { ROUTES } from '../../api/contracts.ts'
import { stockQueries } from '../../api/queries/stock.ts'
import { urlOf } from '../../api/url.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Answered } from '../../ui/waiting.tsx'
import { sheetName, usualSheet } from './sheet-name.ts'
import { t } from '../../lib/reader.ts'

const SHEET_KEY = 'clampclock.labelSheet'

interface DialogProps extends Omit<SheetProps, 'sheets'> {
  readonly count: number | undefined
}

/** Which sheet lies in the printer, and where its first free place is. */
export function LabelsDialog({ what, shelves, count, onClose }: DialogProps) {
  const sheets = useQuery(stockQueries.labelSheets())
  return (
    <Modal
      opened
      onClose={onClose}
      title={count === undefined ? t('features.printLabels') : t('features.printLabels2', { count })}
    >
      <Answered query={sheets} what={t('features.theLabelSheets')}>
        {({ items }) => <SheetForm what={what} shelves={shelves} sheets={items} onClose={onClose} />}
      </Answered>
    </Modal>
  )
}

interface SheetProps {
  readonly what: Record<string, string>
  readonly shelves: readonly { readonly id: string; readonly name: string }[]
  readonly sheets: readonly LabelSheet[]
  readonly onClose: () => void
}

function SheetForm({ what, shelves, sheets, onClose }: SheetProps) {
  const { shop } = useOneShop()
  const [shelf, setShelf] = useState(shelves[0]?.id)
  const [chosen, setChosen] = useState(localStorage.getItem(SHEET_KEY) ?? usualSheet(shop))
  const [start, setStart] = useState<number | string>(1)
  const sheet = sheets.find(({ id }) => id === chosen) ?? sheets[0]!
  const places = sheet.columns * sheet.rows
  const first = Math.min(Math.max(1, Number(start) || 1), places)
  return (
    <Stack gap="md">
      {shelf !== undefined && (
        <NativeSelect
          label={t('features.everythingOnTheShelf')}
          value={shelf}
          data={shelves.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(event) => setShelf(event.currentTarget.value)}
        />
      )}
      <NativeSelect
        label={t('features.labelSheetInThePrinter')}
        value={sheet.id}
        data={sheets.map((each) => ({ value: each.id, label: sheetName(each) }))}
        onChange={(event) => {
          setChosen(event.currentTarget.value)
          localStorage.setItem(SHEET_KEY, event.currentTarget.value)
        }}
      />
      {places > 1 && (
        <NumberInput
          label={t('features.firstFreeLabelOnTheSheet')}
          description={t('features.n1ToCountedRowByRowFromTheTopLeft', { places })}
          min={1}
          max={places}
          value={start}
          onChange={setStart}
        />
      )}
      <p style={{ margin: 0 }}>{t('features.printAt100WithoutFitToPageTheSizes')}</p>
      <Group justify="flex-end">
        <Button variant="default" onClick={onClose}>
          {t('features.back')}
        </Button>
        <Button
          component="a"
          href={urlOf(ROUTES.getLabels.path, undefined, {
            ...what,
            locationId: shelf,
            sheet: sheet.id,
            start: first,
          })}
          target="_blank"
          rel="noreferrer"
          onClick={onClose}
        >
          {t('features.openThePdf')}
        </Button>
      </Group>
    </Stack>
  )
}
