package booktest

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// NewSecureServer starts a server that lets nobody in over the network without
// a password and TLS. Its certificate is for a host name, and trusted by those
// who trust the file whose name it returns.
func NewSecureServer(host string) (s *Server, authority string, err error) {
	if s, err = NewServer(); err != nil {
		return nil, "", err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.Remove())
		}
	}()
	if err := s.Stop(); err != nil {
		return nil, "", err
	}
	cert, key, err := certificate(host)
	if err != nil {
		return nil, "", err
	}
	for name, content := range map[string][]byte{
		"server.crt": cert, "server.key": key,
		"data/pg_hba.conf": []byte("local all all trust\nhostssl all all 127.0.0.1/32 scram-sha-256\n"),
	} {
		path := filepath.Join(s.dir, name)
		if err := errors.Join(os.WriteFile(path, content, 0o600), giveAway(path)); err != nil {
			return nil, "", err
		}
	}
	authority = filepath.Join(s.dir, "server.crt")
	return s, authority, s.Start("ssl=on", "ssl_cert_file="+authority, "ssl_key_file="+filepath.Join(s.dir, "server.key"))
}

// certificate makes a certificate for a host that signs itself.
func certificate(host string) (cert, key []byte, err error) {
	secret, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, nil, err
	}
	now := time.Now()
	about := &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: host}, DNSNames: []string{host},
		NotBefore: now.Add(-time.Hour), NotAfter: now.Add(time.Hour), IsCA: true, BasicConstraintsValid: true,
	}
	signed, err := x509.CreateCertificate(rand.Reader, about, about, secret.Public(), secret)
	if err != nil {
		return nil, nil, err
	}
	private, err := x509.MarshalPKCS8PrivateKey(secret)
	if err != nil {
		return nil, nil, err
	}
	return pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: signed}),
		pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}), nil
}

// Script runs a script with the server's own program, as a user of it.
func (s *Server) Script(t testing.TB, user, script string) {
	t.Helper()
	cmd, err := s.program("psql", "-X", "-q", "-v", "ON_ERROR_STOP=1", "-h", s.dir, "-p", fmt.Sprint(s.port), "-U", user, "postgres")
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stdin = strings.NewReader(script)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("script as %s: %v: %s", user, err, said)
	}
}
