package demo

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// writePapers says what stands on a child's papers for home. Of Mira, who is still in
// hospital, two things are not said yet, so that her card shows lines to fill in.
func (s *story) writePapers(c *child) error {
	f := office.HomeForm{KitPlace: "Bag on the hook at the head of the bed", KitPlaceSpanish: "Bolsa en el gancho a la cabecera de la cama",
		Contacts: []office.ContactForm{
			{Role: string(assessment.EmergencyNumber), Telephone: "911", Place: "1"},
			{Role: string(assessment.HospitalTeam), Name: "Breathing team", Telephone: "555 0140", Place: "2"},
			{Role: string(assessment.EquipmentCompany), Name: "Alder Home Equipment", Telephone: "555 0161", Place: "3"},
			{Role: string(assessment.HomeCareAgency), Name: "Larkmoor Home Nursing", Telephone: "555 0100", Place: "4"},
			{Role: string(assessment.PowerCompany), Name: "Valley Power", Telephone: "555 0177"}}}
	for _, kind := range []string{"ventilator", "humidifier", "circuit"} {
		f.Suppliers = append(f.Suppliers, office.SupplierForm{Kind: kind, Supplier: "Alder Home Equipment", Telephone: "555 0161",
			CheckedBy: string(assessment.CheckedByCarer), CheckedWhen: string(assessment.EachShift)})
	}
	if c.inHospital {
		f.KitPlace, f.KitPlaceSpanish, f.Suppliers = "", "", nil
	} else if _, err := s.office.SetParameters(s.ctx, s.educators[0].Actor, c.id, []office.ParameterForm{{Name: "upper_airway", Words: string(assessment.AirOpen)}}); err != nil {
		return err
	}
	_, err := s.office.SetHomeRecord(s.ctx, s.coordinate[0].Actor, c.id, f)
	return err
}
