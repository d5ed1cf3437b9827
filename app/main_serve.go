//go:build !js

package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"syscall"

	"lugmark/app/serve"
	"lugmark/web"
)

var serveCommand = command{
	Name: "serve",
	Does: "serve the phone app from this computer",
	Run: func(args []string, out io.Writer) error {
		return serveShell("serve", "", args, out)
	},
}

// demoCommand is serve with another address to open: the phone app makes the
// invented job by itself when it is opened there.
var demoCommand = command{
	Name: "demo",
	Does: "serve the phone app and open it on an invented job",
	Run: func(args []string, out io.Writer) error {
		return serveShell("demo", "demo", args, out)
	},
}

func serveShell(name, open string, args []string, out io.Writer) error {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	o := serve.Options{Open: open}
	flags.StringVar(&o.Listen, "listen", "127.0.0.1:8093", "address and port; port 0 takes a free one")
	flags.StringVar(&o.Cert, "cert", "", "file with the certificate chain, PEM; with --key, serves https")
	flags.StringVar(&o.Key, "key", "", "file with the certificate's private key, PEM")
	dir := flags.String("shell", "", "folder with a phone app to serve instead of the one in this program")
	flags.Usage = func() {
		fmt.Fprintf(flags.Output(), "lugmark %s serves the phone app. Stop it with Ctrl-C.\n\n", name)
		printFlags(flags)
	}
	if err := parse(flags, args, out); err != nil {
		return err
	}
	var files fs.FS = web.Shell()
	if *dir != "" {
		files = os.DirFS(*dir)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return serve.Run(ctx, o, files, out)
}
