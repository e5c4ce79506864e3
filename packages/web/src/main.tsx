/** Starts the page. */
import './style/fonts.css';
import './style/tokens.css';
import './style/base.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';

const page = document.getElementById('page');
if (page) createRoot(page).render(<App />);
