package web

func reminderSamples() map[string]Page {
	frame := coordinatorFrame("today")
	set := RemindersForm{Action: "/reminders/settings", On: "yes", At: "07:00", Opens: "yes", Days: "30, 14, 7", Lapsed: "yes", Unplanned: "7", Rostered: "yes"}
	rules := []string{"Whoever holds a skill, once when it is due.", "Whoever holds a skill, 30, 14 and 7 days before its last day.", "Whoever held it, once when it is over."}
	long := "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen"
	page := RemindersPage{Frame: frame, CanSend: true, Failed: 1, Today: 2, Next: "Today, 07:00", Sent: 41, Since: "26 Oct 2026", Back: "30", States: optionsOf("all", "sent", "failed"), People: optionsOf("everybody", "Dana Orlova"),
		Letters: []MailLine{
			{To: long, Href: "/people/p8", Day: "25 Nov 2026", Shape: "fault", State: "failed", When: "today, 07:00 MST", Tells: "1 skill is over; 2 skills are due", Why: "sending SMTP RCPT TO: 550 5.1.1 <(an address)>: Recipient address rejected: nobody here", Again: "/reminders/letters/l1/sending"},
			{To: "Nguyễn Thị Lan", Href: "/people/p2", Day: "25 Nov 2026", Shape: "open", State: "waiting", When: "tried 2 times, again at 07:06 MST", Tells: "1 skill is due", Why: "421 4.3.2 too busy"},
			{To: "Dana Orlova", Href: "/people/p1", Day: "24 Nov 2026", Shape: "met", State: "sent", When: "yesterday, 07:00 MST", Tells: "2 skills are over of somebody on the roster; 1 skill ends, and nothing is planned"},
			{To: "Sam Whitlock", Href: "/people/p3", Day: "24 Nov 2026", Shape: "not started", State: "not sent", When: "yesterday, 07:00 MST", Tells: "1 skill is due", Why: "They had left or had no address any more."}},
		More:      true,
		Coming:    []ComingDay{{"Today, 07:00", []ComingLine{{"Dana Orlova", "/people/p1", "1 due"}, {long, "/people/p8", "1 over, 2 due"}}}, {"Saturday 28 November, 07:00", []ComingLine{{"Sam Whitlock", "/people/p3", "1 due"}}}},
		NoAddress: []Link{{"Łucja Żak", "/people/p4"}, {"Theo Marsh", "/people/p5"}}, Rules: rules, RulesBy: "Dana Orlova, 2 Nov 2026, 09:14 MST", Set: set}
	bad := page
	bad.Set.At, bad.Set.Faults = "7", Faults{What: "Nothing was set.", Why: "One thing needs mending.", Next: "Look below.", Fields: []FieldFault{{"at", "Time of day", "Give the time of day as HH:MM, such as 07:00."}}}
	asked := page
	asked.Failed, asked.Back, asked.Faults = 0, "many", Faults{What: "This cannot be shown.", Why: "One thing needs mending.", Fields: []FieldFault{{"back", "Days back", "Give the days as a number."}}}
	off := RemindersPage{Frame: frame, CanSend: true, Off: true, Since: "26 Oct 2026", Back: "30", States: page.States, People: page.People, Set: RemindersForm{Action: "/reminders/settings", At: "07:00"}}
	without := page
	without.CanSend, without.Letters, without.Sent, without.More, without.NoAddress = false, nil, 0, false, nil
	calm := RemindersPage{Frame: frame, CanSend: true, Sent: 1, Since: "26 Oct 2026", Back: "30", States: page.States, People: page.People, Rules: rules, Set: set}
	next := calm
	next.Coming, next.Next = page.Coming[1:], page.Coming[1].Day
	own := CalendarLine{Name: "Your own", What: "The last days of what you hold, your shifts, visits and skills days. Of children it shows the code alone.", Made: "2 Nov 2026, 09:14 MST", Make: "/account/calendars/own", End: "/account/calendars/own/end"}
	whole := CalendarLine{Name: "The agency’s", What: "How much ends on a day, shifts that break or are open, visits and skills days. It names no caregiver and no educator; of children it shows the code alone.", Make: "/account/calendars/agency"}
	calendars := CalendarsPage{Frame: coordinatorFrame("account"), Calendars: []CalendarLine{own, whole}}
	made := calendars
	made.Address = "https://shown.example/feeds/wsfeed_AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8.ics"
	return map[string]Page{"calendars": calendars, "calendars-made": made, "reminders": page, "reminders-fault": bad, "reminders-asked": asked, "reminders-off": off, "reminders-without": without, "reminders-calm": calm, "reminders-next": next}
}
