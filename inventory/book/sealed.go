package book

import (
	"errors"
	"io"
	"os"
	"strings"

	"filippo.io/age"

	"lungwort/inventory/refusal"
)

// Recipients reads age recipients, as age1….
func Recipients(texts []string) ([]age.Recipient, error) {
	var all []age.Recipient
	for _, text := range texts {
		r, err := age.ParseX25519Recipient(strings.TrimSpace(text))
		if err != nil {
			return nil, refusal.New(refusal.Invalid, "“"+text+"” is no age recipient, so copies can't be encrypted to it.", "Enter one as age-keygen prints it: age1 and 58 more signs.").Because(err)
		}
		all = append(all, r)
	}
	return all, nil
}

// sealTo encrypts one file into another.
func sealTo(from, to string, recipients []age.Recipient) (err error) {
	return rewrite(from, to, func(in io.Reader, out io.Writer) error {
		sealed, err := age.Encrypt(out, recipients...)
		if err != nil {
			return err
		}
		if _, err := io.Copy(sealed, in); err != nil {
			return err
		}
		return sealed.Close()
	})
}

// Unseal decrypts a sealed copy into a new file with the identities of a key
// file.
func Unseal(sealed, keys, to string) error {
	file, err := os.Open(keys)
	if err != nil {
		return explainFile(keys, err)
	}
	defer file.Close()
	identities, err := age.ParseIdentities(file)
	if err != nil {
		return refusal.New(refusal.Invalid, keys+" holds no age identity.", "Give the key file that age-keygen wrote.").Because(err)
	}
	err = rewrite(sealed, to, func(in io.Reader, out io.Writer) error {
		plain, err := age.Decrypt(in, identities...)
		if err != nil {
			return err
		}
		_, err = io.Copy(out, plain)
		return err
	})
	if err == nil {
		return nil
	}
	var none *age.NoIdentityMatchError
	if errors.As(err, &none) {
		return refusal.New(refusal.Invalid, sealed+" was not encrypted to this key.", "Give the key file of one of the recipients.").Because(err)
	}
	return refusal.New(refusal.Damaged, sealed+" can't be decrypted.", "Take another copy.").Because(err)
}

// rewrite passes one file into a new one, for this user alone.
func rewrite(from, to string, pass func(io.Reader, io.Writer) error) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	err = pass(in, out)
	return errors.Join(err, out.Close())
}
