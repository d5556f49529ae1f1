package postgres

import (
	"errors"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"wellshown/assessment/fault"
)

// refused says in words what a named constraint states. What is not listed is a
// fault of ours and not of the person who acts.
var refused = map[string]struct {
	kind fault.Kind
	says string
}{
	"agency_code_is_taken":                             {fault.Conflict, "There is an agency with this code already."},
	"agency_code_is_a_short_word":                      {fault.Invalid, "An agency's code is a short lower-case word, such as larkmoor."},
	"person_email_is_taken":                            {fault.Conflict, "Somebody in this agency has this e-mail address already."},
	"person_email_is_plain":                            {fault.Invalid, "This is not an e-mail address."},
	"person_pkey":                                      {fault.Conflict, "This person has been added already."},
	"neighbour_needs_a_second_person":                  {fault.Refused, "A neighbour is agreed to by somebody else than entered it, and only while nobody has ended it."},
	"neighbour_word_pkey":                              {fault.Conflict, "This has been decided already."},
	"passkey_is_one_persons":                           {fault.Conflict, "This passkey is registered already."},
	"erasure_end_pkey":                                 {fault.Conflict, "This erasure has been decided already."},
	"erasure_needs_a_second_person":                    {fault.Refused, "An erasure is carried out or refused by somebody else than asked for it."},
	"erasure_is_not_of_oneself":                        {fault.Refused, "Nobody asks for their own erasure here."},
	"erasure_keeps_the_floor":                          {fault.Refused, "What is erased has been over for longer than six years, and was not erased before. Nothing has been erased."},
	"erasure_finds_all_as_written":                     {fault.Refused, "Something that would be erased is not as it was when it was written. Nothing has been erased. Run wellshown verify, and find out why first."},
	"what_was_erased_stays_erased":                     {fault.Refused, "What was held here has been erased, and stays so. Whoever comes back is added anew."},
	"criterion_pkey":                                   {fault.Conflict, "This has been added to the plan already."},
	"plan_line_pkey":                                   {fault.Conflict, "This has been added to the template already."},
	"plan_signature_pkey":                              {fault.Conflict, "This plan has been signed already."},
	"plan_day_of_the_meeting_is_first":                 {fault.Invalid, "The meeting comes before the day of going home."},
	"evidence_pkey":                                    {fault.Conflict, "This has been recorded already."},
	"role_is_held_once":                                {fault.Conflict, "They have this role already."},
	"client_leaves_after_it_came":                      {fault.Invalid, "The day on which they leave is before the one on which the agency began to look after them."},
	"knowledge_answer_comes_before_handing_in":         {fault.Conflict, "This check was handed in already. Its answers stay as they were."},
	"knowledge_item_version_is_there_once":             {fault.Conflict, "Somebody else has changed this item meanwhile. Look at it again, then save."},
	"knowledge_sitting_is_there_once":                  {fault.Conflict, "This check was begun already. Go on with it."},
	"carried_in_is_there_once":                         {fault.Conflict, "This has been carried in already."},
	"carried_in_ends_after_it_was_shown":               {fault.Invalid, "By the old paper it ends before it was shown."},
	"client_code_is_taken":                             {fault.Conflict, "There is a child with this code already."},
	"client_code_is_short":                             {fault.Invalid, "A child's code is up to 12 capital letters, digits and hyphens, such as 7K."},
	"team_ends_after_it_begins":                        {fault.Invalid, "The last day is before the first."},
	"skill_code_is_taken":                              {fault.Conflict, "There is a skill with this code already."},
	"revision_only_one_is_a_draft":                     {fault.Conflict, "There is a draft of this checklist already. Go on with that one."},
	"revision_only_one_is_in_force":                    {fault.Conflict, "Another revision came into force in the meantime. Look at it first."},
	"revision_number_is_taken":                         {fault.Conflict, "Somebody else drafted a revision in the meantime. Look at it first."},
	"revision_is_immutable_once_in_force":              {fault.Refused, "A revision that is or was in force never changes. Draft a new one."},
	"lesson_only_one_is_a_draft":                       {fault.Conflict, "There is a draft of this lesson already. Go on with that one."},
	"lesson_only_one_is_in_force":                      {fault.Conflict, "Another version came into force in the meantime. Look at it first."},
	"lesson_number_is_taken":                           {fault.Conflict, "Somebody else drafted this lesson in the meantime. Look at it first."},
	"lesson_is_immutable_once_in_force":                {fault.Refused, "A lesson that is or was in force never changes. Draft a new one."},
	"lesson_in_force_names_its_translator":             {fault.Refused, "A translated lesson comes in force only with the name of the qualified translator who reviewed it."},
	"drawing_pkey":                                     {fault.Conflict, "There is a drawing of this name already, and what lessons show never changes. Choose another name."},
	"force_proposal_end_pkey":                          {fault.Conflict, "This proposal has been decided already."},
	"force_needs_a_second_person":                      {fault.Refused, "A proposal is agreed to or declined by somebody else than made it."},
	"revision_comes_in_force_by_two":                   {fault.Refused, "A revision comes in force only as one person proposed and another agreed to. It is not in force."},
	"api_token_is_revoked_once":                        {fault.Conflict, "This token has been revoked already."},
	"device_pkey":                                      {fault.Conflict, "There is another device under this id."},
	"device_key_is_one_devices":                        {fault.Conflict, "This key is enrolled already. Make a new one on the device."},
	"device_is_revoked_once":                           {fault.Conflict, "This device has been revoked already."},
	"received_sheet_pkey":                              {fault.Conflict, "This sheet has been received already."},
	"vouching_pkey":                                    {fault.Conflict, "Somebody has vouched for them already."},
	"vouching_needs_another_person":                    {fault.Refused, "Whoever vouches neither made the link nor used it."},
	"agreement_needs_a_second_person":                  {fault.Refused, "An appointment is agreed by somebody who neither proposed nor receives it."},
	"appointment_agreement_pkey":                       {fault.Conflict, "This appointment has been agreed already."},
	"appointment_end_pkey":                             {fault.Conflict, "This appointment has been ended already."},
	"sheet_is_not_of_oneself":                          {fault.Refused, "You cannot observe yourself. Ask another observer."},
	"demonstration_is_not_of_oneself":                  {fault.Refused, "You cannot observe yourself. Ask another observer."},
	"skills_day_pkey":                                  {fault.Conflict, "This skills day has been planned already."},
	"sheet_pkey":                                       {fault.Conflict, "There is another demonstration under this id."},
	"withdrawal_pkey":                                  {fault.Conflict, "There is another record under this id."},
	"waiver_pkey":                                      {fault.Conflict, "There is another record under this id."},
	"demonstration_pkey":                               {fault.Conflict, "This demonstration has been recorded already."},
	"held_per_child_names_the_child":                   {fault.Invalid, "This skill is held for one child. Choose the child."},
	"signature_pkey":                                   {fault.Conflict, "This has been signed already."},
	"signature_fits_its_record":                        {fault.Refused, "This signature does not fit the record as it stands."},
	"reinstatement_is_made_once":                       {fault.Conflict, "This withdrawal has been lifted already."},
	"correction_is_made_once":                          {fault.Conflict, "This record has been taken back already."},
	"requirement_ends_after_it_begins":                 {fault.Invalid, "The last day is before the first."},
	"shift_ends_after_it_starts":                       {fault.Invalid, "The shift ends before it starts."},
	"shift_is_at_most_a_day":                           {fault.Invalid, "This shift is longer than 24 hours. Check the days, or plan it as several."},
	"shift_pkey":                                       {fault.Conflict, "This shift is on the roster already."},
	"shift_pattern_pkey":                               {fault.Conflict, "This pattern is on the roster already."},
	"shift_pattern_ends_after_it_begins":               {fault.Invalid, "The last day is before the first."},
	"shift_pattern_has_weekdays":                       {fault.Invalid, "Choose at least one day of the week."},
	"shift_rest_is_hours":                              {fault.Invalid, "Give the rest in hours, from 1 through 24, or leave it empty."},
	"home_visit_pkey":                                  {fault.Conflict, "This visit has been planned already."},
	"home_visit_is_planned_once":                       {fault.Conflict, "They have a visit to this home on that day already."},
	"visit_base_is_named_once":                         {fault.Conflict, "There is a place with this name already."},
	"visit_availability_is_so_many_a_day":              {fault.Invalid, "Give the visits on one day, from 0 through 12."},
	"visit_days_off_end_after_they_begin":              {fault.Invalid, "The last day is before the first."},
	"travel_time_is_within_a_day":                      {fault.Invalid, "Give the way in minutes, from 0 through 720."},
	"packet_pkey":                                      {fault.Conflict, "There is another packet under this id. Ask again from the page."},
	"teaching_session_pkey":                            {fault.Conflict, "This session has been written down already."},
	"teaching_session_is_corrected_once":               {fault.Conflict, "This session has been corrected already. Look at the one that stands in its place."},
	"practice_run_pkey":                                {fault.Conflict, "This practice has been written down already."},
	"practice_run_back_pkey":                           {fault.Conflict, "This was taken back already."},
	"sheet_drill_is_in_simulation":                     {fault.Refused, "A drill is always in simulation, never with the child."},
	"sheet_drill_keeps_its_setting":                    {fault.Refused, "A drill is always in simulation, never with the child."},
	"demonstration_of_a_drill_is_in_simulation":        {fault.Refused, "A drill is always in simulation, never with the child."},
	"drill_scenario_version_is_there_once":             {fault.Conflict, "Somebody else has changed this scenario meanwhile. Look at it again, then save."},
	"incident_pkey":                                    {fault.Conflict, "This incident has been recorded already."},
	"incident_closing_pkey":                            {fault.Conflict, "This incident has been closed already."},
	"incident_is_recorded_after_it_happened":           {fault.Invalid, "This lies in the future. Check the day and time."},
	"in_service_session_pkey":                          {fault.Conflict, "This session has been written down already."},
	"supervisory_visit_pkey":                           {fault.Conflict, "This visit has been written down already."},
	"supervisory_visit_is_of_somebody_else":            {fault.Refused, "Nobody supervises themselves. Choose who did."},
	"certificate_is_issued_once":                       {fault.Conflict, "The certificate has been issued already."},
	"demonstration_is_recorded_after_it_was_performed": {fault.Invalid, "The demonstration lies in the future. Check the day and time."},
}

// None reports whether a change touched no row.
func None(err error) bool { return errors.Is(err, pgx.ErrNoRows) }

// refusal turns what the database says into the one vocabulary of refusals.
func refusal(err error) error {
	if err == nil {
		return nil
	}
	if _, ok := fault.As(err); ok {
		return err
	}
	if errors.Is(err, pgx.ErrNoRows) {
		return &fault.Fault{Kind: fault.NotFound, Message: "There is no such record."}
	}
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		if r, known := refused[pg.ConstraintName]; known {
			return &fault.Fault{Kind: r.kind, Message: r.says}
		}
		switch pg.Code {
		case "23503":
			return &fault.Fault{Kind: fault.NotFound, Message: "Something this refers to is not in this agency."}
		case "22P02": // what is no id was never the id of anything
			return &fault.Fault{Kind: fault.NotFound, Message: "There is no such record."}
		case "22021", "22P05": // not UTF-8, or the character 0
			return &fault.Fault{Kind: fault.Invalid, Message: "This holds characters that cannot be read or printed. Type it again."}
		}
	}
	return &failure{said(err, pg), err}
}

// failure is a fault of ours at the database, in words that may stand in a log.
type failure struct {
	says  string
	cause error
}

func (f *failure) Error() string { return "database: " + f.says }

func (f *failure) Unwrap() error { return f.cause }

// said leaves out what repeats a value: the server's message about data that does not
// fit (class 22 of PostgreSQL's error codes), and the driver's about an argument.
func said(err error, pg *pgconn.PgError) string {
	text := err.Error()
	if pg != nil && strings.HasPrefix(pg.Code, "22") {
		text = strings.ReplaceAll(text, pg.Error(), "data that does not fit (SQLSTATE "+pg.Code+")")
	}
	if before, _, found := strings.Cut(text, "unable to encode "); found {
		text = before + "an argument that cannot be sent"
	}
	return text
}
