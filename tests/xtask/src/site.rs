//! A folder of files served as any static host would, that can really be stopped.

use std::collections::HashMap;
use std::fs;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// Something wrong with one file, put there to see what the page does about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Answered with 404.
    Missing,
    /// Answered with half of its bytes and a length to match.
    Halved,
    /// Answered with one byte changed.
    Corrupt,
    /// Answered only after this long.
    Slow(Duration),
}

/// A folder being served.
///
/// Every connection is closed after its answer, and nothing may be stored by
/// the browser's own cache: what a test sees is what the page and its worker do.
/// Dropping it stops it.
#[derive(Debug)]
pub struct Site {
    shared: Arc<Shared>,
    address: SocketAddr,
    listening: Mutex<Option<JoinHandle<()>>>,
}

#[derive(Debug)]
struct Shared {
    folder: Mutex<PathBuf>,
    /// Opens and closes with a slash.
    prefix: String,
    stopping: AtomicBool,
    next: AtomicU64,
    open: Mutex<HashMap<u64, TcpStream>>,
    faults: Mutex<HashMap<String, Fault>>,
    asked: Mutex<Vec<String>>,
    /// The page's own policy, asked for once more so that the browser tells us of each breach.
    policy: Mutex<Option<String>>,
    breaches: Mutex<Vec<String>>,
}

/// Where browsers tell of breaches of the policy.
const BREACHES: &str = "breaches";

impl Site {
    /// Serves `folder` under `prefix` ("/" or "/shop/page/") at `address`; port 0 takes a free one.
    ///
    /// # Errors
    ///
    /// When the address is taken or not this machine's.
    pub fn start(folder: &Path, prefix: &str, address: SocketAddr) -> io::Result<Site> {
        let listener = TcpListener::bind(address)?;
        let address = listener.local_addr()?;
        let shared = Arc::new(Shared {
            folder: Mutex::new(folder.to_owned()),
            prefix: format!("/{}/", prefix.trim_matches('/')).replace("//", "/"),
            stopping: AtomicBool::new(false),
            next: AtomicU64::new(0),
            open: Mutex::default(),
            faults: Mutex::default(),
            asked: Mutex::default(),
            policy: Mutex::default(),
            breaches: Mutex::default(),
        });
        let listening = thread::spawn({
            let shared = Arc::clone(&shared);
            move || listen(&listener, &shared)
        });
        Ok(Site { shared, address, listening: Mutex::new(Some(listening)) })
    }

    /// Serves on a free port of this machine alone.
    ///
    /// # Errors
    ///
    /// When no port is free.
    pub fn here(folder: &Path, prefix: &str) -> io::Result<Site> {
        Site::start(folder, prefix, (Ipv4Addr::LOCALHOST, 0).into())
    }

    /// Where it listens.
    #[must_use]
    pub const fn address(&self) -> SocketAddr {
        self.address
    }

    /// The page's address.
    #[must_use]
    pub fn url(&self) -> String {
        format!("http://{}{}", self.address, self.shared.prefix)
    }

    /// Serves another folder from now on: a newer page arriving.
    pub fn serve(&self, folder: &Path) {
        folder.clone_into(&mut lock(&self.shared.folder));
    }

    /// Puts a fault on one file, named from the folder; `None` takes it away.
    pub fn fault(&self, file: &str, fault: Option<Fault>) {
        let mut faults = lock(&self.shared.faults);
        match fault {
            Some(fault) => faults.insert(file.to_owned(), fault),
            None => faults.remove(file),
        };
    }

    /// Every file asked for since the last call, in order, named from the folder.
    #[must_use]
    pub fn asked(&self) -> Vec<String> {
        std::mem::take(&mut *lock(&self.shared.asked))
    }

    /// Has every browser tell from now on when the page breaks its content security policy: a page
    /// can state one, and only its host can ask to be told.
    ///
    /// # Errors
    ///
    /// When the page states no policy.
    pub fn hear_breaches(&self) -> io::Result<()> {
        let page = fs::read_to_string(lock(&self.shared.folder).join("index.html"))?;
        let policy = page.split("http-equiv=\"Content-Security-Policy\"").nth(1);
        let policy = policy.and_then(|rest| rest.split('"').nth(1));
        let policy = policy.ok_or_else(|| io::Error::other("the page states no policy"))?;
        *lock(&self.shared.policy) = Some(policy.split_whitespace().collect::<Vec<_>>().join(" "));
        Ok(())
    }

    /// What browsers told of breaches since the last call.
    #[must_use]
    pub fn breaches(&self) -> Vec<String> {
        std::mem::take(&mut *lock(&self.shared.breaches))
    }

    /// Refuses new connections and closes the open ones.
    pub fn stop(&self) {
        let Some(listening) = lock(&self.listening).take() else { return };
        self.shared.stopping.store(true, Ordering::SeqCst);
        // Wakes the listener, which looks at the flag and goes.
        let mut awake = self.address;
        if awake.ip().is_unspecified() {
            awake.set_ip(Ipv4Addr::LOCALHOST.into());
        }
        TcpStream::connect(awake).ok();
        listening.join().ok();
        for stream in lock(&self.shared.open).values() {
            stream.shutdown(Shutdown::Both).ok();
        }
    }

    /// Waits for ever: for a server that ends with its process.
    pub fn wait(self) {
        let listening = lock(&self.listening).take();
        if let Some(listening) = listening {
            listening.join().ok();
        }
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.stop();
    }
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

fn listen(listener: &TcpListener, shared: &Arc<Shared>) {
    for stream in listener.incoming() {
        if shared.stopping.load(Ordering::SeqCst) {
            return;
        }
        let Ok(stream) = stream else { continue };
        let Ok(twin) = stream.try_clone() else { continue };
        let id = shared.next.fetch_add(1, Ordering::SeqCst);
        lock(&shared.open).insert(id, twin);
        let shared = Arc::clone(shared);
        thread::spawn(move || {
            // A browser that hangs up in the middle is nobody's fault.
            converse(&stream, &shared).ok();
            stream.shutdown(Shutdown::Both).ok();
            lock(&shared.open).remove(&id);
        });
    }
}

fn converse(mut stream: &TcpStream, shared: &Shared) -> io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(30)))?;
    let mut said = BufReader::new(stream);
    let mut lines = said.by_ref().lines();
    let Some(first) = lines.next().transpose()? else { return Ok(()) };
    let (mut long, mut unpacks) = (0, false);
    for line in lines {
        let line = line?.to_ascii_lowercase();
        if line.is_empty() {
            break;
        }
        if let Some(value) = line.strip_prefix("content-length:") {
            long = value.trim().parse().unwrap_or(0);
        }
        if let Some(value) = line.strip_prefix("accept-encoding:") {
            unpacks = value.split([',', ';']).any(|coding| coding.trim() == "br");
        }
    }
    let mut words = first.split(' ');
    let (method, target) = (words.next().unwrap_or(""), words.next().unwrap_or(""));
    let answer = match method {
        "GET" | "HEAD" => answer(target, unpacks, shared),
        "POST" if target.strip_prefix(&shared.prefix) == Some(BREACHES) => {
            let mut report = Vec::new();
            said.take(long).read_to_end(&mut report)?;
            let report = String::from_utf8_lossy(&report);
            lock(&shared.breaches).push(format!("Content Security Policy broken: {report}"));
            Answer::plain("204 No Content", "")
        }
        _ => Answer::plain("405 Method Not Allowed", "only GET and HEAD"),
    };
    if shared.stopping.load(Ordering::SeqCst) {
        return Ok(());
    }
    let told = |policy: &String| {
        format!(
            "Content-Security-Policy-Report-Only: {policy}; report-uri {}{BREACHES}\r\n",
            shared.prefix
        )
    };
    let policy = lock(&shared.policy).as_ref().filter(|_| answer.kind.contains("html")).map(told);
    write!(
        stream,
        "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n{}{}{}\
         Cache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
        answer.status,
        answer.kind,
        answer.body.len(),
        answer.moved.map(|to| format!("Location: {to}\r\n")).unwrap_or_default(),
        policy.unwrap_or_default(),
        if answer.packed { "Content-Encoding: br\r\n" } else { "" },
    )?;
    if method == "GET" {
        stream.write_all(&answer.body)?;
    }
    stream.flush()
}

struct Answer {
    status: &'static str,
    kind: &'static str,
    body: Vec<u8>,
    moved: Option<String>,
    packed: bool,
}

impl Answer {
    fn plain(status: &'static str, words: &str) -> Answer {
        Answer {
            status,
            kind: "text/plain; charset=utf-8",
            body: words.into(),
            moved: None,
            packed: false,
        }
    }
}

fn answer(target: &str, unpacks: bool, shared: &Shared) -> Answer {
    let missing = || Answer::plain("404 Not Found", "no such file");
    let path = target.split(['?', '#']).next().unwrap_or("");
    if shared.prefix.strip_suffix('/').is_some_and(|bare| !bare.is_empty() && bare == path) {
        let moved = Some(shared.prefix.clone());
        return Answer { moved, ..Answer::plain("301 Moved Permanently", "") };
    }
    let Some(file) = path.strip_prefix(&shared.prefix).and_then(unescape) else {
        return missing();
    };
    let file = match file.as_str() {
        "" => "index.html".to_owned(),
        _ => file,
    };
    // Nothing outside the folder, whatever is asked for.
    if file.split(['/', '\\']).any(|part| matches!(part, "" | "." | "..")) {
        return missing();
    }
    lock(&shared.asked).push(file.clone());
    let fault = lock(&shared.faults).get(&file).copied();
    let folder = lock(&shared.folder).clone();
    // What somebody packed beforehand stands beside it.
    let packed = unpacks.then(|| fs::read(folder.join(format!("{file}.br"))).ok()).flatten();
    let is_packed = packed.is_some();
    let Some(mut body) = packed.or_else(|| fs::read(folder.join(&file)).ok()) else {
        return missing();
    };
    match fault {
        None => {}
        Some(Fault::Missing) => return missing(),
        Some(Fault::Halved) => body.truncate(body.len() / 2),
        Some(Fault::Corrupt) => {
            let middle = body.len() / 2;
            if let Some(byte) = body.get_mut(middle) {
                *byte ^= 1;
            }
        }
        Some(Fault::Slow(wait)) => thread::sleep(wait),
    }
    Answer { status: "200 OK", kind: kind(&file), body, moved: None, packed: is_packed }
}

/// `%41` and its like made plain; `None` where that isn't text.
fn unescape(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let [first, after @ ..] = rest {
        rest = after;
        bytes.push(match (first, after) {
            (b'%', [high, low, ..]) => {
                rest = after.get(2..)?;
                let digit = |byte: &u8| char::from(*byte).to_digit(16);
                u8::try_from(digit(high)? * 16 + digit(low)?).ok()?
            }
            (b'%', _) => return None,
            _ => *first,
        });
    }
    String::from_utf8(bytes).ok()
}

/// The kind of a file by its name, for a browser that is told not to guess.
///
/// Source: the media types registered with IANA, as browsers ask for them.
fn kind(file: &str) -> &'static str {
    match file.rsplit('.').next().unwrap_or("") {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder() -> PathBuf {
        static NEXT: AtomicU64 = AtomicU64::new(0);
        let name = format!("site-{}-{}", std::process::id(), NEXT.fetch_add(1, Ordering::SeqCst));
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "page").unwrap();
        fs::write(folder.join("works.wasm"), "works").unwrap();
        folder
    }

    fn get(site: &Site, path: &str) -> String {
        let mut stream = TcpStream::connect(site.address()).unwrap();
        write!(stream, "GET {path} HTTP/1.1\r\nHost: here\r\n\r\n").unwrap();
        let mut all = String::new();
        stream.read_to_string(&mut all).unwrap();
        all
    }

    #[test]
    fn a_folder_is_served_below_its_prefix_and_nothing_outside_it() {
        let site = Site::here(&folder(), "a/b").unwrap();
        assert!(site.url().ends_with("/a/b/"));
        let page = get(&site, "/a/b/?from=home");
        assert!(page.starts_with("HTTP/1.1 200") && page.ends_with("\r\n\r\npage"), "{page}");
        assert!(page.contains("text/html") && page.contains("no-store"), "{page}");
        assert!(get(&site, "/a/b/works%2Ewasm").contains("Content-Type: application/wasm"));
        assert!(get(&site, "/a/b").contains("Location: /a/b/\r\n"));
        for outside in ["/", "/a/", "/a/b/../../x", "/a/b/%2e%2e/x", "/a/b//etc/passwd", "/a/b/%"] {
            assert!(get(&site, outside).starts_with("HTTP/1.1 404"), "{outside}");
        }
        assert_eq!(site.asked(), ["index.html", "works.wasm"]);
    }

    #[test]
    fn what_was_packed_goes_to_those_who_can_unpack_it() {
        let folder = folder();
        fs::write(folder.join("works.wasm.br"), "packed").unwrap();
        let site = Site::here(&folder, "/").unwrap();
        let mut stream = TcpStream::connect(site.address()).unwrap();
        write!(stream, "GET /works.wasm HTTP/1.1\r\nAccept-Encoding: gzip, br\r\n\r\n").unwrap();
        let mut all = String::new();
        stream.read_to_string(&mut all).unwrap();
        assert!(all.contains("Content-Encoding: br\r\n") && all.ends_with("packed"), "{all}");
        assert!(all.contains("application/wasm"), "{all}");
        assert!(get(&site, "/works.wasm").ends_with("\r\n\r\nworks"));
    }

    #[test]
    fn breaches_of_the_pages_policy_are_heard() {
        let folder = folder();
        fs::write(
            folder.join("index.html"),
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">",
        )
        .unwrap();
        let site = Site::here(&folder, "/a/").unwrap();
        assert!(!get(&site, "/a/").contains("Report-Only"));
        site.hear_breaches().unwrap();
        let page = get(&site, "/a/");
        let told =
            "Content-Security-Policy-Report-Only: default-src 'none'; report-uri /a/breaches\r\n";
        assert!(page.contains(told), "{page}");
        let mut stream = TcpStream::connect(site.address()).unwrap();
        write!(stream, "POST /a/breaches HTTP/1.1\r\nContent-Length: 9\r\n\r\nstyle-src").unwrap();
        let mut all = String::new();
        stream.read_to_string(&mut all).unwrap();
        assert!(all.starts_with("HTTP/1.1 204"), "{all}");
        assert!(site.breaches().concat().contains("style-src"));
        assert!(site.breaches().is_empty());
    }

    #[test]
    fn faults_are_as_asked_for() {
        let site = Site::here(&folder(), "/").unwrap();
        site.fault("works.wasm", Some(Fault::Missing));
        assert!(get(&site, "/works.wasm").starts_with("HTTP/1.1 404"));
        site.fault("works.wasm", Some(Fault::Halved));
        assert!(get(&site, "/works.wasm").ends_with("\r\n\r\nwo"));
        site.fault("works.wasm", Some(Fault::Corrupt));
        assert!(get(&site, "/works.wasm").ends_with("\r\n\r\nwosks"));
        site.fault("works.wasm", None);
        assert!(get(&site, "/works.wasm").ends_with("\r\n\r\nworks"));
    }

    #[test]
    fn a_stopped_site_hangs_up_and_takes_no_more_calls() {
        let site = Site::here(&folder(), "/").unwrap();
        let mut waiting = TcpStream::connect(site.address()).unwrap();
        waiting.write_all(b"GET / HTTP/1.1\r\n").unwrap();
        // The listener has the connection once a later one has been answered.
        assert!(get(&site, "/").contains("page"));
        site.stop();
        let mut rest = Vec::new();
        waiting.read_to_end(&mut rest).ok();
        assert!(rest.is_empty(), "answered after the stop");
        assert!(TcpStream::connect(site.address()).is_err(), "still listening");
        let again = Site::start(&folder(), "/", site.address()).unwrap();
        assert!(get(&again, "/").contains("page"), "the same place can be taken again");
    }
}
