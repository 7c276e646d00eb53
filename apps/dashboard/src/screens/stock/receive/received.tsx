import { Link } from '@tanstack/react-router'
import { rich } from '../../../lib/rich.tsx'
import { LabelsButton } from '../../../features/labels/labels-button.tsx'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import type { Receipt } from './delivery.ts'
import { t } from '../../../lib/reader.ts'

/** What came in: the labels to print, and what the service noticed about the delivery. */
export function Received({ receipt }: { readonly receipt: Receipt }) {
  const { lot, cartridges, warnings } = receipt
  return (
    <output style={{ display: 'block', marginBottom: '1.5rem' }}>
      <Answer
        tone={warnings.length === 0 ? 'ready' : 'warning'}
        question={t('stock.lotOf', { lotNumber: lot.lotNumber, productName: lot.productName })}
        word={t('stock.received', { cartridges: cartridges.length })}
      >
        {warnings.map((warning) => (
          <p key={warning}>
            <Mark tone="warning">{warning}</Mark>
          </p>
        ))}
        <p>
          <LabelsButton what={{ receiptId: receipt.receiptId }} count={cartridges.length} />
        </p>
        <p>
          {rich('stock.codes', {
            codes: (
              <>
                {cartridges.map((cartridge, index) => (
                  <span key={cartridge.id}>
                    {index > 0 && ', '}
                    <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: cartridge.id }}>
                      {cartridge.code}
                    </Link>
                  </span>
                ))}
              </>
            ),
          })}
        </p>
      </Answer>
    </output>
  )
}
