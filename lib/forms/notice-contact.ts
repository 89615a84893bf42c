import { type Params, textParam } from './list-filters'

/** Who stands under a notice. */
export type NoticeContact = { name: string; phone: string; address: string }

const TEXT_MAX = 120
const DIGITS_OF_A_PHONE = 7

/**
 * Who a notice names: what the address asks for, else the outfit as set. The outfit's contact is one line, a phone number or
 * an address: what has the digits of a phone number is taken as one.
 */
export function readNoticeContact(params: Params, outfit: { name: string; contact: string }): NoticeContact {
  const isPhone =
    outfit.contact.replace(/\D/g, '').length >= DIGITS_OF_A_PHONE && !outfit.contact.includes('@')
  const set = {
    name: outfit.name,
    phone: isPhone ? outfit.contact : '',
    address: isPhone ? '' : outfit.contact,
  }
  const asked = (name: keyof NoticeContact) => {
    const given = params[name] === undefined ? set[name] : textParam(params, name)
    return given.trim().slice(0, TEXT_MAX)
  }
  return { name: asked('name'), phone: asked('phone'), address: asked('address') }
}
