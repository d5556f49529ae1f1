package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) listPackets(ctx context.Context, by caller, _ *struct{}) (*answer[List[Packet]], error) {
	d, err := e.office.PacketDesk(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(d.Asked, packet, ""), nil
}

type packetBody struct{ Body PacketForm }

func (e *edge) askPacket(ctx context.Context, by caller, in *packetBody) (*made[Packet], error) {
	f := office.PacketForm{ID: in.Body.ID, Kind: in.Body.About, Skill: in.Body.Skill, Shift: assessment.ShiftID(in.Body.Shift), On: in.Body.On, From: in.Body.From, Through: in.Body.Through}
	var err error
	if f.Person, err = maybeID[assessment.PersonID](in.Body.Person); err != nil {
		return nil, err
	}
	if f.Client, err = maybeID[assessment.ClientID](in.Body.Client); err != nil {
		return nil, err
	}
	v, err := e.office.AskPacket(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return added(packet(v), "packets", string(v.ID)), nil
}

func (e *edge) packetState(ctx context.Context, by caller, in *ByID) (*answer[Packet], error) {
	id, err := assessment.ParseID[assessment.PacketID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.PacketState(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(packet(v)), nil
}

func (e *edge) packetPDF(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.PacketID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Packet(ctx, by.Actor, id, "pdf")
	return drawn(pdf, body, name, err)
}

func (e *edge) packetData(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.PacketID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Packet(ctx, by.Actor, id, "json")
	return drawn(jsonText, body, name, err)
}

func (e *edge) packetZIP(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.PacketID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Packet(ctx, by.Actor, id, "zip")
	return drawn(zipped, body, name, err)
}
