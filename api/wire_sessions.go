package api

// SignIn is what somebody types to sign in.
type SignIn struct {
	Agency   string `json:"agency,omitempty" maxLength:"100" doc:"The agency's code. Only needed by those who are known to more than one."`
	Email    string `json:"email" maxLength:"1000"`
	Password string `json:"password" maxLength:"1000" writeOnly:"true"`
	Code     string `json:"code,omitempty" maxLength:"100" writeOnly:"true" doc:"One-time code, or a recovery code, of those who have turned codes on. Each is good once."`
}

// Session is what signing in gives.
type Session struct {
	Token  string   `json:"token" doc:"Send it as Authorization: Bearer. It ends after 12 hours without use, and after 7 days at the latest."`
	Person Named    `json:"person"`
	Agency string   `json:"agency" format:"uuid" doc:"The agency's id."`
	Roles  []string `json:"roles"`
}

// Me is who sends a request.
type Me struct {
	Person Person   `json:"person"`
	Agency string   `json:"agency" format:"uuid" doc:"The agency's id."`
	May    []string `json:"may" doc:"The acts that their roles allow, in whole or for what is their own."`
}

// OwnPassword puts another password in place of one's own.
type OwnPassword struct {
	Old string `json:"old" maxLength:"1000" writeOnly:"true"`
	New string `json:"new" maxLength:"1000" writeOnly:"true"`
}
