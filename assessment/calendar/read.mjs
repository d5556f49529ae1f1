// Reads a calendar with ical.js and says what is in it, as JSON.
import { readFileSync } from 'node:fs'
import ICAL from 'ical.js'

const calendar = new ICAL.Component(ICAL.parse(readFileSync(0, 'utf8')))
const zoned = t => t.toString().replace('Z', '+00:00')
console.log(JSON.stringify(calendar.getAllSubcomponents('vevent').map(c => {
  const e = new ICAL.Event(c)
  return { uid: e.uid, summary: e.summary, from: zoned(e.startDate), until: zoned(e.endDate), sequence: e.sequence, stamp: zoned(c.getFirstPropertyValue('dtstamp')) }
})))
