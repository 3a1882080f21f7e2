package book

import (
	"crypto/tls"
	"crypto/x509"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"slices"
	"strings"
	"syscall"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"lungwort/inventory/refusal"
)

// Codes of the server's errors, from "PostgreSQL Error Codes", appendix A of
// its documentation.
const (
	uniqueViolation      = "23505"
	invalidSign          = "22021"
	serializationFailure = "40001"
	deadlock             = "40P01"
	undefinedTable       = "42P01"
	lockNotAvailable     = "55P03"
	noRight              = "42501"
	readOnlyTransaction  = "25006"
	noDatabase           = "3D000"
	wrongPassword        = "28P01"
	notLetIn             = "28000"
	diskFull             = "53100"
	tooManyDesks         = "53300"
	shutDown             = "57P01"
	crashed              = "57P02"
	startingUp           = "57P03"
	idleTooLong          = "25P03"
	dataCorrupted        = "XX001"
	indexCorrupted       = "XX002"
)

// code returns the code of a server's error, or nothing.
func code(err error) string {
	var e *pgconn.PgError
	if errors.As(err, &e) {
		return e.Code
	}
	return ""
}

// again reports whether an act got into the way of another, or lost its
// connection before its end: then nothing of it was written. A server that
// can't be reached at all was tried long enough.
func (s *server) again(err error) bool {
	if refused(err) {
		return false
	}
	var unreached *pgconn.ConnectError
	c := code(err)
	return c == serializationFailure || c == deadlock || lost(err) && !errors.As(err, &unreached)
}

// lost reports whether the connection broke.
func lost(err error) bool {
	if slices.Contains([]string{shutDown, crashed, idleTooLong}, code(err)) {
		return true
	}
	var network net.Error
	return errors.Is(err, driver.ErrBadConn) || errors.Is(err, pgconn.ErrConnClosed) ||
		errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed) ||
		errors.Is(err, syscall.ECONNRESET) || errors.Is(err, syscall.EPIPE) || errors.As(err, &network)
}

func (s *server) explain(err error) error {
	if err == nil || refused(err) {
		return err
	}
	if r := s.fault(err); r != nil {
		return r.Because(err)
	}
	return err
}

// unsure tells apart the one moment at which nobody can say whether an act was
// written: when the connection breaks while it is being ended.
func (s *server) unsure(err error) error {
	if err == nil || !lost(err) {
		return err
	}
	return refuse(refusal.Unreachable, "Look whether it is there before you enter it again.",
		"The connection to %s broke at the moment of writing.", s.named).Because(err)
}

// fault returns the refusal for an error that is the server's, the network's
// or the address's fault, or nil for one that is the statement's.
func (s *server) fault(err error) *refusal.Error {
	if errors.Is(err, pgconn.ErrReadOnlyConnection) {
		return refuse(refusal.ReadOnly, "Wait until one of its servers has taken over, then try again.",
			"The book %s takes no writing now: only a stand-by answers.", s.named)
	}
	if r := s.said(code(err)); r != nil {
		return r
	}
	if r := s.unproven(err); r != nil {
		return r
	}
	var unreached *pgconn.ConnectError
	if lost(err) || errors.As(err, &unreached) {
		return unreachable(s.named)
	}
	return nil
}

// said returns the refusal for what the server itself answered.
func (s *server) said(code string) *refusal.Error {
	user := s.config.User
	switch code {
	case lockNotAvailable:
		return refuse(refusal.Busy, "Try again in a moment; nothing was written.",
			"Another desk is writing something long in %s.", s.named)
	case serializationFailure, deadlock:
		return refuse(refusal.Busy, "Try again in a moment; nothing was written.",
			"Other desks kept getting in the way in %s.", s.named)
	case noRight:
		return refuse(refusal.ReadOnly, "Ask the server's keeper for a role that may: \"lungwort roles\" lists them.",
			"%s may not do this in %s.", user, s.named)
	case readOnlyTransaction:
		return refuse(refusal.ReadOnly, "Wait until one of its servers has taken over, then try again.",
			"The book %s takes no writing now.", s.named)
	case noDatabase:
		return refuse(refusal.NotFound, "Check the address, or let the server's keeper make it: \"lungwort roles\" prints how.",
			"There is no database %s.", s.named)
	case wrongPassword, notLetIn:
		return refuse(refusal.Locked, "Check the name and the password.",
			"The server did not let %s in to %s.", user, s.named)
	case diskFull:
		return refuse(refusal.Unready, "Let the server's keeper free some room; nothing was written.",
			"The disk of the server that holds %s is full.", s.named)
	case tooManyDesks:
		return refuse(refusal.Busy, "Close a desk that is not needed, or let the server's keeper allow more connections.",
			"The server of %s has no place for another desk.", s.named)
	case startingUp:
		return refuse(refusal.Unreachable, "Try again in a moment; nothing was written.",
			"The server of %s is starting up.", s.named)
	case dataCorrupted, indexCorrupted:
		return refuse(refusal.Damaged, "Let the server's keeper restore the latest backup beside it, and keep what is there.",
			"The book %s is damaged.", s.named)
	case invalidSign:
		return refuse(refusal.Invalid, "Type it anew without pasting.", "The text holds a sign that can't be kept.")
	}
	return nil
}

// unproven returns the refusal of a server that does not prove who it is.
func (s *server) unproven(err error) *refusal.Error {
	var certificate *tls.CertificateVerificationError
	var record tls.RecordHeaderError
	var alert tls.AlertError
	switch {
	case errors.As(err, &certificate):
		return refuse(refusal.Foreign, "Name the authority that signed its certificate with sslrootcert=FILE in the address; nothing was sent to it.",
			"The server of %s can't prove who it is: %s.", s.named, whyUnproven(certificate))
	case errors.As(err, &record), errors.As(err, &alert), strings.Contains(fmt.Sprint(err), "server refused TLS connection"):
		return refuse(refusal.Foreign, "Let its keeper switch TLS on; on a network that is safe by itself, add sslmode=disable to the address.",
			"The server of %s does not encrypt what is sent.", s.named)
	}
	return nil
}

func whyUnproven(err error) string {
	var name x509.HostnameError
	var expired x509.CertificateInvalidError
	switch {
	case errors.As(err, &name):
		return "its certificate is for another name"
	case errors.As(err, &expired) && expired.Reason == x509.Expired:
		return "its certificate is out of date"
	}
	return "nobody this machine trusts has signed its certificate"
}

func unreachable(named string) *refusal.Error {
	return refuse(refusal.Unreachable, "Check the network and the server; nothing was written.",
		"The book %s can't be reached.", named)
}

func noBook(named string) *refusal.Error {
	return refuse(refusal.NotFound, "Check the address, or make a new book there.",
		"There is no book in %s.", named)
}

func bookThere(named string) *refusal.Error {
	return refuse(refusal.Conflict, "Open it, or choose another database; nothing was overwritten.",
		"There is already a book in %s.", named)
}

func notEmpty(named, table string) *refusal.Error {
	return refuse(refusal.Foreign, "Give the book a database of its own.",
		"The database %s is not empty: it holds %s, which is not of this program.", named, table)
}

func oldServer(named, version string) *refusal.Error {
	return refuse(refusal.Unready, "A book needs PostgreSQL 15 or newer.",
		"The server of %s is PostgreSQL %s.", named, version)
}

func fewSigns(named, signs string) *refusal.Error {
	return refuse(refusal.Foreign, "Make the database anew with ENCODING 'UTF8'.",
		"The database %s keeps its texts as %s, which lacks signs that names need.", named, signs)
}

func oldForDesk(named string) *refusal.Error {
	return refuse(refusal.Unready, "Let one of its owners open it once with this version, which brings it up to date.",
		"The book %s was written by an older version of the program.", named)
}

func copyThere() *refusal.Error {
	return refuse(refusal.Invalid, "Bring the copy there with \"lungwort copy --from COPY --to ADDRESS\".",
		"A copy is not restored onto a server.")
}

func badAddress() *refusal.Error {
	return refuse(refusal.Invalid, "It reads like postgres://ines@server.example/lungwort.",
		"The address of the book can't be understood.")
}

// nameOf names a book on a server in words that follow "the book":
// "lungwort on db.example".
func nameOf(c *pgx.ConnConfig) string {
	hosts := []string{}
	add := func(host string, port uint16) {
		if strings.HasPrefix(host, "/") {
			host = "this machine"
		} else if port != 5432 {
			host = net.JoinHostPort(host, fmt.Sprint(port))
		}
		if !slices.Contains(hosts, host) {
			hosts = append(hosts, host)
		}
	}
	add(c.Host, c.Port)
	for _, other := range c.Fallbacks {
		add(other.Host, other.Port)
	}
	database := c.Database
	if database == "" {
		database = c.User // as the server takes it
	}
	return database + " on " + strings.Join(hosts, " or ")
}

// setOutside reports whether a setting of the connection is given by the
// environment, where the server's own programs look for it too.
func setOutside(name string) bool {
	_, set := os.LookupEnv(map[string]string{"sslmode": "PGSSLMODE", "target_session_attrs": "PGTARGETSESSIONATTRS"}[name])
	return set
}
