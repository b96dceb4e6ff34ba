//! The desk on a socket of its own: where it may listen, and that it ends.

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, mpsc};
use std::time::Duration;

use tempfile::TempDir;
use tokio::sync::oneshot;
use tokio::time::timeout;

use crate::doors::accounts_of;
use crate::{AccountChange, Failure, Press, Pressed, Settings, WantedPress, Watched, run, serve};

fn pack() -> TempDir {
    let dir = TempDir::new().unwrap();
    std::fs::write(dir.path().join("pack.toml"), "format = 1\ntitle = \"T\"\neditor = \"E\"\n").unwrap();
    dir
}

/// What became of a desk that is asked to end at once.
async fn opened(dir: &TempDir, address: &str) -> Result<(), Failure> {
    let address: SocketAddr = address.parse().unwrap();
    let settings = Settings { pack: dir.path().to_owned(), address, public_url: None, pressing: None };
    serve(settings, |_| {}, async {}).await
}

#[tokio::test]
async fn only_this_machine_is_served() {
    let dir = pack();
    for address in ["0.0.0.0:0", "[::]:0", "192.0.2.1:80"] {
        let refused = opened(&dir, address).await.unwrap_err();
        assert!(refused.message.contains("has no accounts"), "{refused}");
    }
    assert!(!dir.path().join(".galley").exists());
    opened(&dir, "127.0.0.1:0").await.unwrap();
    // Ended, it has let go of the pack.
    opened(&dir, "127.0.0.1:0").await.unwrap();
}

#[tokio::test]
async fn others_are_served_only_with_accounts_and_by_https() {
    let dir = pack();
    let opened = async |address: &str, public: Option<&str>| {
        let (address, public_url) = (address.parse().unwrap(), public.map(str::to_owned));
        serve(Settings { pack: dir.path().to_owned(), address, public_url, pressing: None }, |_| {}, async {})
            .await
    };
    let (here, everywhere, public) = ("127.0.0.1:0", "0.0.0.0:0", Some("https://desk.example"));
    for (address, public) in [(everywhere, None), (everywhere, public), (here, public)] {
        let refused = opened(address, public).await.unwrap_err();
        assert!(
            refused.message.contains("has no accounts") && refused.help.contains("--add-account"),
            "{refused}"
        );
    }
    let account = AccountChange::Add { name: "Fern".to_owned(), password: "moss under a lantern".to_owned() };
    accounts_of(dir.path(), account).await.unwrap();
    let refused = opened(everywhere, None).await.unwrap_err();
    assert!(refused.help.contains("--public-url"), "{refused}");
    let refused = opened(everywhere, Some("http://desk.example")).await.unwrap_err();
    assert!(refused.help.contains("https://"), "{refused}");
    opened(everywhere, public).await.unwrap();
    opened(here, public).await.unwrap();
    opened(here, None).await.unwrap();
}

#[tokio::test]
async fn an_address_that_is_taken_says_so() {
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let refused = opened(&pack(), &taken.local_addr().unwrap().to_string()).await.unwrap_err();
    assert!(refused.message.contains("cannot be had") && refused.help.contains("port 0"), "{refused}");
}

/// A page that listens would otherwise keep it open for ever.
#[tokio::test]
async fn it_ends_while_pages_listen() {
    let dir = pack();
    let (ready, is_ready) = oneshot::channel();
    let (stop, stopped) = oneshot::channel::<()>();
    let address = "127.0.0.1:0".parse().unwrap();
    let settings = Settings { pack: dir.path().to_owned(), address, public_url: None, pressing: None };
    let stop_when = async { _ = stopped.await };
    let desk = tokio::spawn(serve(settings, |it| _ = ready.send(it), stop_when));
    let address = is_ready.await.unwrap();
    let listening = tokio::task::spawn_blocking(move || {
        let mut stream = TcpStream::connect(address).unwrap();
        write!(stream, "GET /api/1/news HTTP/1.1\r\nhost: {address}\r\n\r\n").unwrap();
        let mut first = [0; 15];
        stream.read_exact(&mut first).unwrap();
        (first, stream)
    });
    let (first, mut stream) = listening.await.unwrap();
    assert_eq!(&first, b"HTTP/1.1 200 OK");
    stop.send(()).unwrap();
    timeout(Duration::from_secs(5), desk).await.expect("it ends").unwrap().unwrap();
    let mut rest = String::new();
    stream.read_to_string(&mut rest).unwrap();
    assert!(rest.contains("data: files"), "{rest}");
}

/// A press that looks neither left nor right until it is let go.
#[derive(Debug)]
struct Deaf {
    began: mpsc::Sender<()>,
    /// Nobody sends anything; it is over when the sender is.
    end: Mutex<mpsc::Receiver<()>>,
}

impl Press for Deaf {
    fn press(&self, _: &WantedPress, _: &Watched) -> Result<Pressed, Failure> {
        self.began.send(()).unwrap();
        _ = self.end.lock().unwrap().recv();
        Ok(Pressed::default())
    }
}

/// As somebody who presses Ctrl-C expects.
#[test]
fn it_ends_while_work_goes_on_that_cannot_be_broken_off() {
    let dir = pack();
    let (began, has_begun) = mpsc::channel();
    let (let_go, end) = mpsc::channel();
    let pressing: Option<Arc<dyn Press>> = Some(Arc::new(Deaf { began, end: Mutex::new(end) }));
    let (ready, is_ready) = mpsc::channel();
    let is_over = Arc::new(AtomicBool::new(false));
    let asked = Arc::clone(&is_over);
    let (ended, has_ended) = mpsc::channel();
    let settings = Settings {
        pack: dir.path().to_owned(),
        address: "127.0.0.1:0".parse().unwrap(),
        public_url: None,
        pressing,
    };
    std::thread::spawn(move || {
        let done = run(settings, |it| ready.send(it).unwrap(), move || asked.load(Ordering::Relaxed));
        ended.send(done).unwrap();
    });
    let address = is_ready.recv().unwrap();
    let ask = |head: &str, token: &str, body: &str| {
        let mut stream = TcpStream::connect(address).unwrap();
        let length = body.len();
        write!(
            stream,
            "{head} HTTP/1.1\r\nhost: {address}\r\nx-desk-token: {token}\r\ncontent-type: application/json\r\n\
             content-length: {length}\r\nconnection: close\r\n\r\n{body}"
        )
        .unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    };
    let page = ask("GET /", "", "");
    let token = page.split("name=\"desk-token\" content=\"").nth(1).unwrap().split('"').next().unwrap();
    let body =
        "{\"issued\": null, \"forms\": [], \"print_cues\": false, \"strict\": false, \"unseal\": false}";
    let begun = ask("POST /api/1/press", token, body);
    assert!(begun.starts_with("HTTP/1.1 202"), "{begun}");
    has_begun.recv_timeout(Duration::from_secs(20)).expect("it is pressed");
    // Nor does one that has only begun to ask keep it.
    let mut half = TcpStream::connect(address).unwrap();
    write!(half, "GET / HTTP/1.1\r\nhost: ").unwrap();
    is_over.store(true, Ordering::Relaxed);
    has_ended.recv_timeout(Duration::from_secs(10)).expect("it ends").unwrap();
    drop(let_go);
}
