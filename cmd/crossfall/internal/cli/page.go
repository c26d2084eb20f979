package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"time"

	"crossfall/cmd/crossfall/internal/page"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/spf13/cobra"
)

// pageOptions is what page was asked to do.
type pageOptions struct {
	plot    string
	port    int
	lan     bool
	browser bool
}

// newPage opens the page.
func newPage(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "page [PLOT]",
		Short: "Open the plot on a local page, for laptop and phone",
		Long: `Opens the plot on a page in the browser: draw what is on it, key in readings,
look at ground and water, settle the beds, and build from it. PLOT is a plot
folder; left out, it is the folder you are in, and where that is no plot, the page
offers to begin one there.

The page is for this machine alone, unless --lan is given: then a phone on the
same network may open it with a code, which is printed, and which lets one device
in. What is sent to the phone is not encrypted: use it on a network of your own.

Every reading is in the plot's files before the page says that it is booked. The
page stays open until you press Ctrl-C.`,
		Example: `  crossfall page garden
  crossfall page garden --lan           also from a phone on the same network`,
		Args: atMost(1, "one plot folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := toPageOptions(cmd, args, s)
			if err != nil {
				return err
			}
			return openPage(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.Bool("lan", false, "let other devices on the same network in, with a code")
	f.Int("port", 0, "port to listen on; left out, 4180 or the next that is free")
	f.Bool("no-browser", false, "print the address only")
	return cmd
}

// usualPort is tried first, so that a phone finds the page again.
const usualPort = 4180

// toPageOptions turns words and flags into options.
func toPageOptions(cmd *cobra.Command, args []string, s Streams) (o pageOptions, err error) {
	f := cmd.Flags()
	o.plot = "."
	if len(args) > 0 {
		o.plot = args[0]
	}
	var errPort, errLan, errBrowser error
	o.port, errPort = f.GetInt("port")
	o.lan, errLan = f.GetBool("lan")
	none, errBrowser := f.GetBool("no-browser")
	o.browser = !none && isTerminal(s.Out)
	if err := errors.Join(errPort, errLan, errBrowser); err != nil {
		return o, err
	}
	if f.Changed("port") && (o.port < 1 || o.port > 65535) {
		return o, wrongUse(cmd, "--port %d is not between 1 and 65535", o.port)
	}
	return o, checkPlotFolder(o.plot)
}

// checkPlotFolder says whether a page can be opened on a path.
func checkPlotFolder(path string) error {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return fmt.Errorf("there is no folder %s; to begin a plot, open the page in the folder that it shall lie in", shown(path))
	case !info.IsDir():
		return fmt.Errorf("%s is a file: the page works on a plot folder; make one with: crossfall start DIR, and put the file there as heights%s", shown(path), filepath.Ext(path))
	}
	return nil
}

// openPage serves until ctx ends.
func openPage(ctx context.Context, s Streams, o pageOptions) error {
	dir, err := filepath.Abs(o.plot)
	if err != nil {
		return fmt.Errorf("find %s: %w", o.plot, err)
	}
	listener, err := listen(o)
	if err != nil {
		return err
	}
	port := listener.Addr().(*net.TCPAddr).Port
	opt := page.Options{
		Plot: dir, Version: versionLine(), Begin: beginPlot, Example: beginExample, Made: madeOf,
		Kept: keptStorm, Keep: func(dir string, storm *siting.Storm) error { return writeStorm(stormFile(dir), storm) },
		Hosts: hosts(port, o.lan), OwnOpen: true,
	}
	address := "http://127.0.0.1:" + strconv.Itoa(port) + "/"
	fmt.Fprintf(s.Err, "crossfall: the page is at %s\n", address)
	if o.lan {
		tellPhones(s, opt.Hosts[3:])
		opt.Code = page.NewCode(func(code string) { fmt.Fprintf(s.Err, "crossfall: code for the next device: %s\n", code) })
	}
	fmt.Fprintln(s.Err, "crossfall: press Ctrl-C here to close it")
	server, err := page.New(opt)
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	defer server.Close()
	if o.browser {
		browse(address)
	}
	return serve(ctx, listener, server)
}

// listen takes the port asked for, or the usual one, or any.
func listen(o pageOptions) (net.Listener, error) {
	host := "127.0.0.1"
	if o.lan {
		host = ""
	}
	if o.port != 0 {
		l, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(o.port)))
		if err != nil {
			return nil, fmt.Errorf("port %d cannot be used (%w); leave --port out to take one that is free", o.port, err)
		}
		return l, nil
	}
	l, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(usualPort)))
	if err != nil {
		l, err = net.Listen("tcp", net.JoinHostPort(host, "0"))
	}
	if err != nil {
		return nil, fmt.Errorf("no port can be listened on: %w", err)
	}
	return l, nil
}

// hosts are the names that the page answers to: this machine's own first, then
// its addresses on the network.
func hosts(port int, lan bool) []string {
	at := func(host string) string { return net.JoinHostPort(host, strconv.Itoa(port)) }
	out := []string{at("127.0.0.1"), at("localhost"), at("::1")}
	if !lan {
		return out
	}
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return out
	}
	for _, a := range addresses {
		if n, ok := a.(*net.IPNet); ok && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() && n.IP.To4() != nil {
			out = append(out, at(n.IP.String()))
		}
	}
	return out
}

func tellPhones(s Streams, addresses []string) {
	if len(addresses) == 0 {
		fmt.Fprintln(s.Err, "crossfall: this machine has no address on a network: no other device can reach the page")
	}
	for _, a := range addresses {
		fmt.Fprintf(s.Err, "crossfall: on a phone in the same network: http://%s/\n", a)
	}
}

// closing is how long open requests are given when the page is closed.
const closing = 2 * time.Second

// serve answers until ctx ends.
func serve(ctx context.Context, listener net.Listener, handler *page.Server) error {
	web := &http.Server{
		Handler: handler, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	go handler.Sweep(ctx)
	ended := make(chan error, 1)
	go func() { ended <- web.Serve(listener) }()
	select {
	case err := <-ended:
		return fmt.Errorf("the page stopped: %w", err)
	case <-ctx.Done():
	}
	patience, cancel := context.WithTimeout(context.Background(), closing)
	defer cancel()
	if err := web.Shutdown(patience); err != nil {
		_ = web.Close() // a device keeps its connection open; everything booked is on disk
	}
	return nil
}

// browse opens an address in the browser, where the system knows how.
func browse(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	if cmd := exec.Command(name, args...); cmd.Start() == nil {
		go func() { _ = cmd.Wait() }() // the address is printed in any case
	}
}

// beginPlot makes a plot folder as crossfall start does, with every question left
// open.
func beginPlot(dir, name string, units geodata.Units) error {
	site := unsaid(dir)
	site.Name, site.Units = name, string(units)
	return writeFolder(dir, []file{
		{"site.toml", siteTOML(site)},
		{"heights.csv", blankHeights(site.Units)},
		{"features.csv", blankFeatures(site.Units)},
	})
}

func beginExample(dir string) error {
	files, err := demoFiles()
	if err != nil {
		return err
	}
	return writeFolder(dir, files)
}
