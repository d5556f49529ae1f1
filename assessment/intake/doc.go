// Package intake reads the lists that an agency brings along when it comes: its people, its
// children, its shifts and the competencies that somebody is said to have shown elsewhere. A
// file is told by its content, turned into rows with the names of our columns, and every fault
// in it is named by row and column with what to write instead. It is pure: it decides nothing
// about what is there already, and nothing is kept.
//
// Files are tables as text (RFC 4180), workbooks (ISO/IEC 29500) and, for shifts, calendars (RFC 5545).
package intake
